/** Where in a recording somebody speaks. A room is never silent, so that "silent" is what the room itself is. */
import { gainToDb } from '../pcm/format.ts';

interface SpeechFound {
  /** Index of the first and behind the last sample of it. */
  readonly from: number;
  readonly to: number;
  /** What the room sounds like between the words, and the loud parts of the words: root mean square over 10 ms, dB of full scale. */
  readonly roomDb: number;
  readonly speechDb: number;
}

const FRAME_S = 0.01;
/** Speech is what stands out of the room by so much, for so long. */
const OVER_ROOM_DB = 12;
const STEADY_FRAMES = 3;
/** From there on back and on to where the room is left: a soft "f" before, a last breath behind. */
const SOFT_OVER_ROOM_DB = 5;
const SOFT_AT_MOST_S = 0.18;
/** Between two parts of one phrase; a click of a button is shorter than a word and farther from it. */
const PAUSE_S = 0.7;
/** A voice that was recorded without a room: below this it is silent. */
const SILENCE_DB = -75;
/** Under its own loud parts by so much, anything is silence: rooms that have been taken out leave nothing to go by. */
const UNDER_SPEECH_DB = 42;

/** Undefined where nothing stands out of the room. */
export function findSpeech(samples: Float64Array, rateHz: number): SpeechFound | undefined {
  const frame = Math.round(FRAME_S * rateHz);
  const levels = frameLevels(samples, frame);
  const sorted = [...levels].sort((a, b) => a - b);
  const roomDb = Math.max(SILENCE_DB, at(sorted, Math.floor(0.1 * sorted.length)));
  const speechDb = at(sorted, Math.floor(0.95 * sorted.length));
  const loudDb = Math.max(roomDb + OVER_ROOM_DB, speechDb - UNDER_SPEECH_DB);
  const softDb = Math.max(roomDb + SOFT_OVER_ROOM_DB, speechDb - UNDER_SPEECH_DB);
  const parts = mainParts(levels, loudDb);
  const [first, last] = [parts[0], parts.at(-1)];
  if (first === undefined || last === undefined) return undefined;
  const soft = Math.round(SOFT_AT_MOST_S / FRAME_S);
  let from = first.from;
  while (from > 0 && first.from - from < soft && at(levels, from - 1) > softDb) from -= 1;
  let to = last.to;
  while (to < levels.length && to - last.to < soft && at(levels, to) > softDb) to += 1;
  return { from: from * frame, to: Math.min(samples.length, to * frame), roomDb, speechDb };
}

interface Part {
  readonly from: number;
  readonly to: number;
}

/** The stretch of loud parts around the longest of them, as long as no pause in it is too long to be one. */
function mainParts(levels: readonly number[], loudDb: number): readonly Part[] {
  const parts = loudParts(levels, loudDb);
  const longest = parts.reduce<Part | undefined>(
    (most, part) => (most === undefined || part.to - part.from > most.to - most.from ? part : most),
    undefined,
  );
  if (longest === undefined) return [];
  const pause = PAUSE_S / FRAME_S;
  let [from, to] = [parts.indexOf(longest), parts.indexOf(longest)];
  while (from > 0 && (parts[from]?.from ?? 0) - (parts[from - 1]?.to ?? 0) <= pause) from -= 1;
  while (to + 1 < parts.length && (parts[to + 1]?.from ?? 0) - (parts[to]?.to ?? 0) <= pause) to += 1;
  return parts.slice(from, to + 1);
}

function loudParts(levels: readonly number[], loudDb: number): readonly Part[] {
  const parts: Part[] = [];
  let from: number | undefined;
  for (let i = 0; i <= levels.length; i += 1) {
    const isLoud = i < levels.length && at(levels, i) > loudDb;
    if (isLoud) from ??= i;
    else if (from !== undefined) {
      if (i - from >= STEADY_FRAMES) parts.push({ from, to: i });
      from = undefined;
    }
  }
  return parts;
}

function frameLevels(samples: Float64Array, frame: number): readonly number[] {
  return Array.from({ length: Math.floor(samples.length / frame) }, (_, i) => {
    const power = samples.subarray(i * frame, (i + 1) * frame).reduce((sum, s) => sum + s * s, 0) / frame;
    return Math.max(-120, gainToDb(Math.sqrt(power)));
  });
}

function at(values: readonly number[], index: number): number {
  return values[index] ?? -120;
}
