/** Recordings as a microphone in a room gives them, made from what the embedded voice says. */
import { SAMPLE_RATE_HZ } from '../../audio/pcm/format.ts';
import { resample } from '../../audio/recorded/resample.ts';
import { openVoice } from '../../audio/voice/voice.ts';
import { writeWav } from '../../audio/wav.ts';

export interface Room {
  readonly rateHz?: number;
  /** Of the words: the loudest sample as a share of full scale; over 1 they are cut off. */
  readonly peak?: number;
  /** Of the room's noise, root mean square. */
  readonly noise?: number;
  readonly beforeS?: number;
  readonly afterS?: number;
}

/** Speaks texts once each. */
export function speaker() {
  const voice = openVoice();
  const said = new Map<string, Promise<Int16Array>>();
  return {
    words(text: string): Promise<Int16Array> {
      const saying = said.get(text) ?? voice.speak(text);
      said.set(text, saying);
      return saying;
    },
    close: () => voice.close(),
  };
}

/** In a room, as samples of -1..1 at the room's rate. */
export function inARoom(words: Int16Array, room: Room = {}): Float64Array {
  const { rateHz = 48_000, peak = 0.4, noise = 0.0008, beforeS = 0.7, afterS = 0.9 } = room;
  const heard = resample(
    new Float64Array(words).map((s) => s / 32_768),
    SAMPLE_RATE_HZ,
    rateHz,
  );
  const loudest = heard.reduce((most, s) => Math.max(most, Math.abs(s)), 0) || 1;
  const before = Math.round(beforeS * rateHz);
  const samples = new Float64Array(before + heard.length + Math.round(afterS * rateHz));
  samples.set(
    heard.map((s) => (s * peak) / loudest),
    before,
  );
  const chance = lehmer();
  return samples.map((s) => Math.max(-1, Math.min(1, s + noise * Math.sqrt(3) * (2 * chance() - 1))));
}

export function asWav(samples: Float64Array, rateHz = 48_000): Uint8Array {
  return writeWav({ sampleRateHz: rateHz, samples: Int16Array.from(samples, (s) => Math.round(s * 32_767)) });
}

/** The same room each time (Park and Miller 1988). */
function lehmer(): () => number {
  let seed = 4711;
  return () => {
    seed = (seed * 48_271) % 2_147_483_647;
    return seed / 2_147_483_647;
  };
}
