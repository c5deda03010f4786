/** This device as a listener: fetches and decodes every phrase, is confirmed by its person, and speaks each call when it is due. */

import type { Call } from '../../server/core/run/events.ts';
import { phrases } from '../../server/core/words/phrases.ts';
import type { Clip, Hearing } from '../../server/wire/messages.ts';
import { AlarmTone } from './alarmTone.ts';
import { audioTimeS } from './audioTime.ts';
import { ClipShelf } from './clipShelf.ts';
import { makeStore, type Store } from './store.ts';

/** A call that could only be begun later than this is not begun: a late number is worse than none. */
export const TOO_LATE_MS = 250;
/** Short enough to be at once, long enough not to click. */
const CUT_S = 0.005;
const STALL_CHECK_MS = 500;

export interface SoundState {
  readonly hearing: Hearing;
  readonly ready: number;
  readonly wanted: number;
  /** The test words have been played since the sound was last stopped. */
  readonly tested: boolean;
}

export class Loudspeaker {
  readonly state: Store<SoundState> = makeStore<SoundState>({ hearing: 'loading', ready: 0, wanted: 0, tested: false });
  readonly #context = new AudioContext({ latencyHint: 'interactive' });
  readonly #shelf = new ClipShelf(this.#context);
  readonly #alarm = new AlarmTone(this.#context);
  readonly #speaking = new Map<string, { readonly source: AudioBufferSourceNode; readonly level: GainNode }>();
  #loaded = false;
  readonly #confirmation: string;
  #confirmed: boolean;
  #stalled = false;
  #lastTimeS = 0;

  /** `run`: its confirmation outlives a reload of the page, so that one tap brings the sound back in mid-run. */
  constructor(run: string) {
    this.#confirmation = `by-the-mark.confirmed.${run}`;
    this.#confirmed = readConfirmation(this.#confirmation);
    this.#context.addEventListener('statechange', () => this.#judge());
    document.addEventListener('visibilitychange', () => this.#judge());
    setInterval(() => this.#watchStall(), STALL_CHECK_MS);
  }

  async load(clips: readonly Clip[]): Promise<void> {
    this.state.change({ wanted: clips.length });
    await this.#shelf.load(clips, (ready) => this.state.change({ ready }));
    this.#loaded = true;
    this.#judge();
  }

  /** Only works within a person's tap or key press: browsers keep silent until then. */
  async playTest(): Promise<void> {
    await this.wake();
    const clip = this.#shelf.get(phrases.soundTest);
    if (clip === undefined) throw new Error(`no clip says "${phrases.soundTest}"`);
    this.#start('test', clip, performance.now());
    this.state.change({ tested: true });
  }

  /** The person says that the test words were heard. */
  confirm(): void {
    this.#confirmed = true;
    keepConfirmation(this.#confirmation);
    this.#judge();
  }

  async wake(): Promise<void> {
    if (this.#context.state !== 'running') await this.#context.resume();
    this.#stalled = false;
    this.#judge();
  }

  /** Speaks at `localMs` (`performance.now()`). Gives the reason where it cannot. */
  say(call: Call, localMs: number): string | null {
    const lateMs = performance.now() - localMs;
    const clip = this.#shelf.get(call.text);
    if (clip === undefined) return `no clip says "${call.text}"`;
    if (this.#context.state !== 'running') return `the device's sound is ${this.#context.state}`;
    if (lateMs > TOO_LATE_MS) return `${Math.round(lateMs)} ms late`;
    this.#start(call.id, clip, localMs);
    return null;
  }

  cutOff(id: string): void {
    const spoken = this.#speaking.get(id);
    if (spoken === undefined) return;
    this.#speaking.delete(id);
    const nowS = this.#context.currentTime;
    spoken.level.gain.setValueAtTime(1, nowS);
    spoken.level.gain.linearRampToValueAtTime(0, nowS + CUT_S);
    spoken.source.stop(nowS + CUT_S);
  }

  cutOffAll(): void {
    for (const id of [...this.#speaking.keys()]) this.cutOff(id);
  }

  /** From giving a sound to the device until it leaves it, as far as the browser knows; to the nearest 5 ms, so that it rests. */
  delayMs(): number {
    const { outputLatency, baseLatency } = this.#context;
    return Math.round((1000 * (outputLatency || baseLatency || 0)) / 5) * 5;
  }

  alarm(ringing: boolean): void {
    if (ringing) this.#alarm.start();
    else this.#alarm.stop();
  }

  #start(id: string, clip: AudioBuffer, localMs: number): void {
    this.cutOff(id);
    const source = new AudioBufferSourceNode(this.#context, { buffer: clip });
    const level = new GainNode(this.#context, { gain: 1 });
    source.connect(level).connect(this.#context.destination);
    source.onended = () => {
      level.disconnect();
      if (this.#speaking.get(id)?.source === source) this.#speaking.delete(id);
    };
    this.#speaking.set(id, { source, level });
    source.start(audioTimeS(this.#context, localMs));
  }

  /** A context that says it runs while its time stands still has been silenced by the device. */
  #watchStall(): void {
    const timeS = this.#context.currentTime;
    this.#stalled = this.#context.state === 'running' && timeS === this.#lastTimeS;
    this.#lastTimeS = timeS;
    this.#judge();
  }

  #judge(): void {
    const runs = this.#context.state === 'running' && !this.#stalled && !document.hidden;
    const hearing: Hearing = !this.#loaded ? 'loading' : !this.#confirmed ? 'silent' : runs ? 'confirmed' : 'suspended';
    this.state.change({ hearing });
  }
}

/** For this tab only: another tab, or another day, is confirmed anew. */
function readConfirmation(name: string): boolean {
  try {
    return sessionStorage.getItem(name) === 'yes';
  } catch {
    return false;
  }
}
function keepConfirmation(name: string): void {
  try {
    sessionStorage.setItem(name, 'yes');
  } catch {
    // Forbidden: confirmed anew after a reload.
  }
}
