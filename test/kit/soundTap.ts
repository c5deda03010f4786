import type { BrowserContext, Page } from 'playwright-core';

/** What a page's audio graph gave to the device, to the sample. Frames count from the graph's beginning. */
export interface Heard {
  readonly rateHz: number;
  /** Stretches of sound, each begun and ended by at least 150 ms of silence; the last may still go on. */
  readonly stretches: readonly { readonly fromFrame: number; readonly toFrame: number; readonly peak: number }[];
}

/** Runs beside the page's sound: writes down from which sample to which there was any. */
const TAP = `
const SILENT_S = 0.15;
class Tap extends AudioWorkletProcessor {
  process([input]) {
    const samples = input[0] ?? [];
    for (let i = 0; i < samples.length; i++) {
      const size = Math.abs(samples[i]);
      if (size < 1e-4) continue;
      const frame = currentFrame + i;
      if (this.now === undefined || frame - this.now.toFrame > SILENT_S * sampleRate)
        this.now = { fromFrame: frame, toFrame: frame, peak: 0 };
      this.now.toFrame = frame;
      this.now.peak = Math.max(this.now.peak, size);
      this.isNew = true;
    }
    if (this.isNew) this.port.postMessage(this.now);
    this.isNew = false;
    return true;
  }
}
registerProcessor('tap', Tap);`;

/** What a page has for it: `rest` waits on the sound's own clock, which on a busy machine goes by fits and starts. */
export interface SoundTap {
  readonly context: AudioContext;
  readonly ready: Promise<void>;
  rest(seconds: number): Promise<void>;
}

/** Listens at the output of every page of this context, which must bypass the pages' content policy; before they are opened. */
export async function tapSound(context: BrowserContext): Promise<void> {
  await context.addInitScript((code) => {
    const stretches = new Map<number, { fromFrame: number; toFrame: number; peak: number }>();
    const tap = {
      stretches,
      context: null as AudioContext | null,
      ready: Promise.resolve(),
      async rest(seconds: number): Promise<void> {
        const { context } = tap;
        const overS = (context?.currentTime ?? 0) + seconds;
        while (context !== null && context.currentTime < overS) await new Promise((settle) => setTimeout(settle, 5));
      },
    };
    Object.assign(window, { soundTap: tap });
    const { connect } = AudioNode.prototype as unknown as {
      connect: (this: AudioNode, to: AudioNode | AudioParam, ...more: number[]) => AudioNode;
    };
    Object.assign(AudioNode.prototype, {
      connect(this: AudioNode, to: AudioNode | AudioParam, ...more: number[]): unknown {
        const { context } = this;
        if (to instanceof AudioDestinationNode && context instanceof AudioContext) {
          tap.context = context;
          const file = URL.createObjectURL(new Blob([code], { type: 'text/javascript' }));
          tap.ready = context.audioWorklet.addModule(file).then(() => {
            const node = new AudioWorkletNode(context, 'tap', { numberOfOutputs: 0, channelCount: 1 });
            node.port.onmessage = ({ data }) => stretches.set(data.fromFrame, data);
            connect.call(this, node);
          });
        }
        return connect.call(this, to, ...more);
      },
    });
  }, TAP);
}

/** What was heard so far. */
export const heardOn = (page: Page): Promise<Heard> =>
  page.evaluate(() => {
    const { soundTap } = window as unknown as {
      soundTap: { context: AudioContext; stretches: Map<number, Heard['stretches'][number]> };
    };
    return { rateHz: soundTap.context.sampleRate, stretches: [...soundTap.stretches.values()] };
  });
