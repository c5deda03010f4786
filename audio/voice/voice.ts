import { Piscina } from 'piscina';
import type { Language } from '../../server/core/words/voiceChoice.ts';
import { isSpeakable, type VoiceFound } from './settings.ts';
import type { SpeakAsk } from './speak.ts';

/** The embedded voice in a thread of its own: whoever asks never waits for the reckoning. */
export interface Voice {
  /**
   * The finished clip's samples at 22,050 Hz. Rejects with a `VoiceFailed` if the text is not speakable (letters of the
   * language, English unless told otherwise, digits, spaces, `,.'-`, at most 160), or if the voice failed, its thread died, or it took too long; the next text gets a new thread.
   */
  speak(text: string, language?: Language): Promise<Int16Array>;
  about(): Promise<VoiceFound>;
  close(): Promise<void>;
}

export class VoiceFailed extends Error {
  override readonly name = 'VoiceFailed';
}

interface VoiceOptions {
  /** The module that the thread runs. */
  readonly door?: URL;
  readonly patienceMs?: number;
}

const DOOR = new URL('./door.mjs', import.meta.url);
/** A phrase takes some 40 ms and loading the voice half a second; on a machine with its hands full, many times that. */
const PATIENCE_MS = 30_000;
/** The voice and its thread take some 200 MB: they are let go when nothing is asked of them. */
const IDLE_MS = 30_000;

/** One thread, started at the first text and let go when idle. */
export function openVoice({ door = DOOR, patienceMs = PATIENCE_MS }: VoiceOptions = {}): Voice {
  // The door is named text by text: a pool that is given it here never starts another thread once one fails to load it.
  const pool = new Piscina({
    minThreads: 0,
    maxThreads: 1,
    concurrentTasksPerWorker: 1,
    idleTimeout: IDLE_MS,
    // Not the flags of whoever started us: the door brings what the thread needs.
    execArgv: [],
  });
  // A thread that dies between two texts is replaced at the next; one that dies with a text rejects that text.
  pool.on('error', () => {});

  async function ask<T>(name: 'speak' | 'about', what: unknown, of: string): Promise<T> {
    const signal = AbortSignal.timeout(patienceMs);
    try {
      return await pool.run(what, { filename: door.href, name, signal });
    } catch (cause) {
      const why = signal.aborted
        ? `no answer within ${patienceMs / 1000} s`
        : String(cause instanceof Error ? cause.message : cause);
      throw new VoiceFailed(`the embedded voice failed at ${of}: ${why}`, { cause });
    }
  }

  return {
    async speak(text, language = 'en') {
      const of = JSON.stringify(text.slice(0, 80));
      if (!isSpeakable(text, language)) throw new VoiceFailed(`not a text to be spoken: ${of}`);
      const asked: SpeakAsk = { text, language };
      return ask('speak', asked, of);
    },
    about: () => ask('about', null, 'loading'),
    close: () => pool.destroy(),
  };
}
