/** The state of a run: the fold of its events. Plain data, so that it survives a trip through JSON unchanged. */
import type { DegreeStep, Routine, RunMode, TiltProfile } from '../../routine/routine.ts';
import type { Track } from '../../track/track.ts';
import type { Phrases } from '../../words/phraseNames.ts';
import type { Call, Heard, Lifeline, Notice, RunNoticeCode } from './events.ts';

export type Phase = 'ready' | 'feeding' | 'stopped' | 'lost' | 'finished';

/** A mark in the order in which it comes to the blade. */
export interface Station {
  readonly mark: number;
  /** Along the straight stock from the first mark of the run. */
  readonly positionMm: number;
  /** The exact tilt there, positive as the saw's tilt is (hand x sawn bevel). */
  readonly tiltDeg: number;
  /** What is called: the readout's figure. */
  readonly callDeg: number;
}

/** What a run is made with; never changes while it lasts. */
export interface RunSetup {
  readonly mode: RunMode;
  readonly routine: Routine;
  /** In the order of the run, at least two. */
  readonly stations: readonly Station[];
  /** The words of the call for each station, in the same order. */
  readonly callTexts: readonly string[];
  /** The same in fewer words, for when there is no time for all; the angle alone where the mark is named too. */
  readonly shortTexts?: readonly string[];
  /** In the fewest words of any number form, for when there is no time even for those; see `shortestCall.ts`. */
  readonly shortestTexts?: readonly string[];
  /** What it says besides bevels, in the language and words of its voice; English where an old run does not tell. */
  readonly phrases?: Phrases;
  /** In the routine `degree by degree`: its figures in the order of the run. */
  readonly steps?: readonly DegreeStep[];
  /** How long each phrase of the run lasts as rendered, by its words. */
  readonly durationsMs: Readonly<Record<string, number>>;
  /** The exact tilt along the stock, for following: rising positions, closer than the marks. */
  readonly profile: TiltProfile;
  readonly crew: { readonly reactionS: number; readonly turnsPerS: number; readonly feedMPerMin: number };
  readonly degreesPerTurn: number;
  /** Where a turn is not worth the same everywhere, and what the wheel has of looseness; runs of before have neither. */
  readonly turnsTable?: readonly (readonly [number, number])[];
  readonly backlashTurns?: number;
  /** The fastest feed that saw and blade take in this depth, m/min; left out where nobody has said. */
  readonly sawFeedMPerMin?: number;
  /** The fastest feed that a press or a scan is believed to tell of, m/min; runs of before have none and believe every one. */
  readonly fastestMPerMin?: number;
}

/** Where the stock is taken to be, and on what evidence. The figures are the track's at `atMs`, kept beside it to be read at once. */
export interface Reckoning {
  readonly track: Track;
  /** The best evidence so far: a person's presses, scanned marks, or a source that counts travel. */
  readonly by: 'press' | 'scan' | 'travel';
  readonly positionMm: number;
  readonly atMs: number;
  /** Null while the stock stands, and until two counts have told it. */
  readonly speedMmPerMs: number | null;
  readonly speedSdMmPerMs: number;
  /** One standard deviation at `atMs`. */
  readonly uncertaintyMm: number;
  readonly travel: TravelCount | null;
  /** The farthest position so far, to notice pulling back. */
  readonly farthestMm: number;
}
export interface TravelCount {
  readonly lastMm: number;
  /** From here its silence is counted: the last reading, or the moment at which the feed went on. */
  readonly heardAtMs: number;
  /** Its first reading since the feed went on. */
  readonly sinceMs: number;
  /** How often the source speaks, smoothed; null until it has spoken twice since the feed went on. */
  readonly everyMs: number | null;
}

export interface RunState {
  readonly setup: RunSetup;
  readonly phase: Phase;
  /** How many stations have reached the blade: 0 before the first, stations.length after the last. */
  readonly reached: number;
  /** Index of the station whose bevel was last called (what is being turned to); -1 before the start. */
  readonly turningTo: number;
  /** Index of the last station whose call was heard to its end; -1 before the first. */
  readonly heard: number;
  /** Index of the station whose call was cut off as too late, which the record has been told; -1 once another bevel is called. */
  readonly givenUp: number;
  /** Index of the last figure called in the routine `degree by degree`, while it is what is being turned to; otherwise -1. */
  readonly step: number;
  /** By this place the words of that figure must be over; null: nowhere. */
  readonly stepByMm: number | null;
  readonly reckoning: Reckoning | null;
  /** False once the record was found damaged, until a person says which mark is at the blade. */
  readonly isPlaceKnown: boolean;
  /** What the last press changed, so that it can be taken back: it counts a mark, or only confirms one that travel had counted. */
  readonly lastPress: {
    readonly reachedBefore: number;
    readonly reachedAfter: number;
    readonly before: Reckoning | null;
  } | null;
  /** The mark that was scanned last, to tell a doubled scan from a confirmed mark. */
  readonly scannedMark: number | null;
  /** How many marks in a row are taken to have passed by a guess, their code not having been read. */
  readonly guessed: number;
  /** The place that a mark gave the wood and from which it can have come least far since; null before the first. */
  readonly earned: { readonly positionMm: number; readonly atMs: number } | null;
  /** What is being said, or is about to be; null once its time is over. */
  readonly speaking: Call | null;
  /** The order ("stop feed, hold the tilt") that was given last: nothing but another order cuts it off, and what is called after it waits for its end. */
  readonly order: { readonly id: string; readonly endsAtMs: number } | null;
  /** How many calls have been given out; the next call's id is made from it. */
  readonly calls: number;
  readonly notice: Notice<RunNoticeCode> | null;
  /** Where and when the wood last moved on while the run was stopped, once that was told; otherwise null. */
  readonly ranOn: { readonly positionMm: number; readonly atMs: number } | null;
  readonly tilt: { readonly deg: number; readonly atMs: number } | null;
  /** What is heard now, and the most that has been heard since a person last said with what the feed goes on. */
  readonly hears: Heard;
  readonly relies: Heard;
  /** A person has said that it goes on unheard, or it was started with nobody listening. */
  readonly isWithoutSound: boolean;
  /** What was lost last, and when; it counts while the phase is `lost`. */
  readonly lost: { readonly by: Lifeline; readonly atMs: number } | null;
  /** How long after the server the slowest ear hears. */
  readonly hearsAfterMs: number;
  /** When the sawyer was last asked for a slower feed. */
  readonly easedAtMs: number | null;
  /** When the engine next wants to be woken; null: never. */
  readonly wakeAtMs: number | null;
}
