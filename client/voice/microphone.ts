/** This device's microphone: its level all the time, its sound while something is recorded. */
import { makeStore, type Store } from '../kit/link/store.ts';
import workletUrl from './captureWorklet.ts?worker&url';

interface Level {
  /** The loudest sample of the last moment, and of the last second: dB of full scale. */
  readonly peakDb: number;
  readonly heldDb: number;
}
export interface Take {
  readonly rateHz: number;
  readonly samples: Float32Array;
}

/** Words have been heard and are over for so long: the person is done. */
const DONE_AFTER_S = 0.9;
const WORDS_OVER_ROOM_DB = 15;
const QUIET_OVER_ROOM_DB = 8;
const WORDS_AT_LEAST_S = 0.09;
const HOLD_S = 1;
const SILENCE_DB = -90;
export const FULL_DB = -0.1;

export class Microphone {
  readonly level: Store<Level> = makeStore<Level>({ peakDb: SILENCE_DB, heldDb: SILENCE_DB });
  readonly #context: AudioContext;
  readonly #stream: MediaStream;
  /** What the room sounds like: sinks at once, rises slowly. */
  #roomDb = 0;
  #held: { db: number; leftS: number } = { db: SILENCE_DB, leftS: 0 };
  #recording: Recording | null = null;

  /** Rejects where the person or the browser forbids it, or there is none. */
  static async open(): Promise<Microphone> {
    const stream = await navigator.mediaDevices.getUserMedia({
      // As it is: what is taken out of a voice here is missing in it for good.
      audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false, channelCount: 1 },
    });
    const context = new AudioContext();
    await context.audioWorklet.addModule(workletUrl);
    return new Microphone(context, stream);
  }

  private constructor(context: AudioContext, stream: MediaStream) {
    this.#context = context;
    this.#stream = stream;
    const capture = new AudioWorkletNode(context, 'capture', { numberOfOutputs: 0, channelCount: 1 });
    capture.port.onmessage = ({ data }: MessageEvent<Float32Array>) => this.#take(data);
    context.createMediaStreamSource(stream).connect(capture);
  }

  /** Settles with the sound once it is stopped, by the person, by its end, or because it has become too long. */
  async record(longestS: number): Promise<Take> {
    await this.#context.resume();
    return new Promise((settle) => {
      this.#recording = { blocks: [], lastsS: 0, longestS, wordsS: 0, quietS: 0, settle };
    });
  }

  stop(): void {
    const done = this.#recording;
    this.#recording = null;
    done?.settle({ rateHz: this.#context.sampleRate, samples: joined(done.blocks) });
  }

  close(): void {
    this.stop();
    for (const track of this.#stream.getTracks()) track.stop();
    void this.#context.close();
  }

  #take(block: Float32Array): void {
    const blockS = block.length / this.#context.sampleRate;
    const peakDb = dbOf(block.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0));
    const levelDb = dbOf(Math.sqrt(block.reduce((sum, sample) => sum + sample * sample, 0) / block.length));
    this.#roomDb = Math.min(levelDb, this.#roomDb + 3 * blockS);
    const isHigher = peakDb >= this.#held.db || this.#held.leftS <= 0;
    this.#held = isHigher ? { db: peakDb, leftS: HOLD_S } : { ...this.#held, leftS: this.#held.leftS - blockS };
    this.level.change({ peakDb, heldDb: this.#held.db });
    if (this.#recording !== null) this.#hear(this.#recording, block, blockS, levelDb - this.#roomDb);
  }

  #hear(recording: Recording, block: Float32Array, blockS: number, overRoomDb: number): void {
    recording.blocks.push(block);
    recording.lastsS += blockS;
    if (overRoomDb > WORDS_OVER_ROOM_DB) recording.wordsS += blockS;
    recording.quietS = overRoomDb < QUIET_OVER_ROOM_DB ? recording.quietS + blockS : 0;
    const isDone = recording.wordsS >= WORDS_AT_LEAST_S && recording.quietS >= DONE_AFTER_S;
    if (isDone || recording.lastsS >= recording.longestS) this.stop();
  }
}

interface Recording {
  readonly blocks: Float32Array[];
  lastsS: number;
  readonly longestS: number;
  wordsS: number;
  quietS: number;
  readonly settle: (take: Take) => void;
}

const dbOf = (level: number): number => Math.max(SILENCE_DB, 20 * Math.log10(level));

function joined(blocks: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(blocks.reduce((sum, block) => sum + block.length, 0));
  let at = 0;
  for (const block of blocks) {
    whole.set(block, at);
    at += block.length;
  }
  return whole;
}
