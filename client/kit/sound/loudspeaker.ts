/** This device as a listener: fetches and decodes every phrase, is confirmed by its person, and speaks each call when it is due. */

import { msText } from '../../../server/core/figures/durations.ts';
import { TOO_LATE_MS, toldDelayMs } from '../../../server/core/hearing/earLimits.ts';
import type { Call } from '../../../server/core/run/engine/events.ts';
import type { Clip, Hearing } from '../../../server/wire/message/messages.ts';
import { clickSamples } from '../hearing/click.ts';
import { type CueName, cueSamples } from '../hearing/cues.ts';
import { makeStore, type Store } from '../link/store.ts';
import { AlarmTone } from './alarmTone.ts';
import { audioTimeS, leavesAtMs } from './audioTime.ts';
import { ClipShelf } from './clipShelf.ts';

/** Short enough to be at once, long enough not to click. */
const CUT_S = 0.005;
const STALL_CHECK_MS = 500;
/** A change of level is spread over so long, so that it does not click. */
const LEVEL_S = 0.02;
/** A click is asked for so long before it sounds: whatever the page does then, it sounds when it was said to. */
const CLICK_AHEAD_S = 0.06;
/** Sounds that are no calls, by the names under which they are spoken. */
const TEST = 'test';
const CUE = 'cue';
const CLICK = 'click';

interface SoundState {
  readonly hearing: Hearing;
  readonly ready: number;
  readonly wanted: number;
  /** Words for which the server has no sound. */
  readonly refused: readonly string[];
  /** The test words have been played since the sound was last stopped. */
  readonly tested: boolean;
  /** From giving a sound to the device until it is heard; to the nearest 5 ms, so that it rests. */
  readonly delayMs: number;
}

export class Loudspeaker {
  readonly state: Store<SoundState> = makeStore<SoundState>({
    hearing: 'loading',
    ready: 0,
    wanted: 0,
    refused: [],
    tested: false,
    delayMs: 0,
  });
  readonly #context = new AudioContext({ latencyHint: 'interactive' });
  readonly #shelf = new ClipShelf(this.#context);
  /** Everything goes through it: the level that its person has chosen. */
  readonly #out = new GainNode(this.#context);
  readonly #alarm = new AlarmTone(this.#context, this.#out);
  readonly #speaking = new Map<string, { readonly source: AudioBufferSourceNode; readonly level: GainNode }>();
  readonly #cues = new Map<CueName, AudioBuffer>();
  #testWords = '';
  #extraMs = 0;
  #gain = 1;
  #loaded = false;
  readonly #confirmation: string;
  #confirmed: boolean;
  #stalled = false;
  #lastTimeS = 0;
  #lookedAtMs = 0;

  /** `run`: its confirmation outlives a reload of the page, so that one tap brings the sound back in mid-run. */
  constructor(run: string) {
    this.#confirmation = `by-the-mark.confirmed.${run}`;
    this.#confirmed = readConfirmation(this.#confirmation);
    this.#out.connect(this.#context.destination);
    this.#context.addEventListener('statechange', () => this.#judge());
    document.addEventListener('visibilitychange', () => this.#judge());
    setInterval(() => this.#watchStall(), STALL_CHECK_MS);
  }

  /** `testWords`: those of the clips that prove that this device is heard. */
  async load(clips: readonly Clip[], testWords: string): Promise<void> {
    this.#testWords = testWords;
    this.state.change({ wanted: clips.length });
    await this.#shelf.load(clips, (progress) => this.state.change(progress));
    this.#loaded = true;
    this.#judge();
  }

  /** Only works within a person's tap or key press: browsers keep silent until then. */
  async playTest(): Promise<void> {
    await this.wake();
    const clip = this.#shelf.get(this.#testWords);
    if (clip === undefined) throw new Error(`no clip says "${this.#testWords}"`);
    this.#start(TEST, clip, audioTimeS(this.#context, performance.now()));
    this.state.change({ tested: true });
  }

  /** A click to be answered by a tap. Gives when it leaves the device as far as the browser knows (`performance.now()`). */
  click(): number {
    const atS = this.#context.currentTime + CLICK_AHEAD_S;
    this.#start(CLICK, this.#bufferOf(clickSamples(this.#context.sampleRate)), atS);
    return leavesAtMs(this.#context, atS);
  }

  /** Sounds a cue, unless words are being spoken: they come first. */
  cue(name: CueName): void {
    if (this.#context.state !== 'running' || [...this.#speaking.keys()].some(isCall)) return;
    const known = this.#cues.get(name) ?? this.#bufferOf(cueSamples(name, this.#context.sampleRate));
    this.#cues.set(name, known);
    this.#start(CUE, known, this.#context.currentTime);
  }

  /** 0 is all that the device can do. Also in the middle of a word, without a click. */
  setLevelDb(db: number): void {
    const { gain } = this.#out;
    const nowS = this.#context.currentTime;
    const before = this.#gain;
    this.#gain = 10 ** (db / 20);
    gain.cancelScheduledValues(0);
    // While nothing sounds the browser lets a change of level stand, and would begin it with the next call.
    if (this.#speaking.size === 0 && !this.#alarm.isRinging) {
      gain.value = this.#gain;
      return;
    }
    gain.setValueAtTime(before, nowS);
    gain.linearRampToValueAtTime(this.#gain, nowS + LEVEL_S);
  }

  /** How much later than the browser knows this device is heard. */
  setExtraMs(ms: number): void {
    this.#extraMs = ms;
    this.#judge();
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
    if (lateMs > TOO_LATE_MS) return `${msText(lateMs)} late`;
    for (const other of [TEST, CUE, CLICK]) this.cutOff(other);
    this.#start(call.id, clip, audioTimeS(this.#context, localMs));
    return null;
  }

  isSpeaking(id: string): boolean {
    return this.#speaking.has(id);
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

  alarm(ringing: boolean): void {
    if (ringing) this.#alarm.start();
    else this.#alarm.stop();
  }

  #bufferOf(samples: Float32Array<ArrayBuffer>): AudioBuffer {
    const buffer = new AudioBuffer({ length: samples.length, sampleRate: this.#context.sampleRate });
    buffer.copyToChannel(samples, 0);
    return buffer;
  }

  #start(id: string, clip: AudioBuffer, atS: number): void {
    this.cutOff(id);
    const source = new AudioBufferSourceNode(this.#context, { buffer: clip });
    const level = new GainNode(this.#context, { gain: 1 });
    source.connect(level).connect(this.#out);
    source.onended = () => {
      level.disconnect();
      if (this.#speaking.get(id)?.source === source) this.#speaking.delete(id);
    };
    this.#speaking.set(id, { source, level });
    source.start(atS);
  }

  /** A context that says it runs while its time stands still has been silenced by the device. */
  #watchStall(): void {
    const nowMs = performance.now();
    // Behind a stall of the page its timers come close together, and between two of them no sound can have gone on.
    if (nowMs - this.#lookedAtMs < STALL_CHECK_MS / 2) return;
    this.#lookedAtMs = nowMs;
    const timeS = this.#context.currentTime;
    this.#stalled = this.#context.state === 'running' && timeS === this.#lastTimeS;
    this.#lastTimeS = timeS;
    this.#judge();
  }

  #judge(): void {
    const sounds = this.#context.state === 'running' && !this.#stalled;
    // What was begun would go on from its middle whenever the sound wakes: a figure for a place that has gone by.
    if (!sounds) this.#dropAll();
    const runs = sounds && !document.hidden;
    const hearing: Hearing = !this.#loaded ? 'loading' : !this.#confirmed ? 'silent' : runs ? 'confirmed' : 'suspended';
    this.state.change({ hearing, delayMs: this.#delayMs() });
  }

  #dropAll(): void {
    for (const { source, level } of this.#speaking.values()) {
      level.disconnect();
      source.stop();
    }
    this.#speaking.clear();
  }

  #delayMs(): number {
    const { outputLatency, baseLatency } = this.#context;
    // From the graph to the system, and from there to the device; not every browser knows both.
    const knownMs = 1000 * ((baseLatency || 0) + (outputLatency || 0));
    return toldDelayMs(knownMs + this.#extraMs);
  }
}

const isCall = (id: string): boolean => id !== TEST && id !== CUE && id !== CLICK;

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
