/**
 * The tone for "the server is gone", made on the device because nothing can be fetched then. Bursts of two tones between
 * 500 and 2000 Hz, half a second each, unlike any word and any cue.
 */
export class AlarmTone {
  readonly #context: BaseAudioContext;
  readonly #into: AudioNode;
  #ringing: { readonly tone: OscillatorNode; readonly level: GainNode } | null = null;

  constructor(context: BaseAudioContext, into: AudioNode) {
    this.#context = context;
    this.#into = into;
  }

  get isRinging(): boolean {
    return this.#ringing !== null;
  }

  start(): void {
    if (this.#ringing !== null || this.#context.state !== 'running') return;
    const tone = new OscillatorNode(this.#context, { type: 'square', frequency: 660 });
    const level = new GainNode(this.#context, { gain: 0 });
    const beginS = this.#context.currentTime;
    for (let burst = 0; burst < BURSTS; burst++) {
      const atS = beginS + burst * EVERY_S;
      tone.frequency.setValueAtTime(660, atS);
      tone.frequency.setValueAtTime(990, atS + BURST_S / 2);
      level.gain.setTargetAtTime(0.35, atS, 0.005);
      level.gain.setTargetAtTime(0, atS + BURST_S, 0.005);
    }
    tone.connect(level).connect(this.#into);
    tone.start();
    tone.stop(beginS + BURSTS * EVERY_S);
    const ringing = { tone, level };
    this.#ringing = ringing;
    tone.onended = () => {
      level.disconnect();
      if (this.#ringing === ringing) this.#ringing = null;
    };
  }

  stop(): void {
    this.#ringing?.level.disconnect();
    this.#ringing?.tone.stop();
    this.#ringing = null;
  }
}

const BURST_S = 0.5;
const EVERY_S = 0.8;
/** Some forty seconds: after that the words on the screen have been read. */
const BURSTS = 50;
