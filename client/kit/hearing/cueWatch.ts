/**
 * When a cue is due, from what is called and from the guide. A cue never sounds over words: one that would is left out, and
 * words that begin cut it off. The way to turn is told once the figure has been heard.
 */
import type { Call } from '../../../server/core/run/engine/events.ts';
import type { Guide } from '../../../server/core/run/view/guide.ts';
import { turnWord } from '../../../server/core/words/turnWord.ts';
import type { CueName } from './cues.ts';

/** From the end of the words to the cue: they are two things. */
const AFTER_WORDS_MS = 120;
/** A way to turn that could not be told by then is known from the figure. */
const STALE_MS = 500;
/** A press that was refused so long ago is not told of any more: the words had to come first. */
const REFUSED_MS = 3000;
/** So long before a mark it is coming up. */
export const COMING_UP_MS = 2500;
/** Closer than this it is all but there, and two tones would run into each other. */
const TOO_CLOSE_MS = 900;

export class CueWatch {
  readonly #leads: 'heel' | 'head';
  #words: { readonly id: string; readonly endMs: number } | null = null;
  #turn: { readonly id: string; readonly cue: CueName; readonly dueMs: number } | null = null;
  #refusedMs: number | null = null;
  #calledDeg: number | null = null;
  #mark: number | null = null;
  #announced: number | null = null;

  constructor(leads: 'heel' | 'head') {
    this.#leads = leads;
  }

  /** Words that begin at `startsMs` (`performance.now()`) in this very ear. */
  called({ id, deg, durationMs }: Pick<Call, 'id' | 'deg' | 'durationMs'>, startsMs: number): void {
    const endMs = startsMs + durationMs;
    this.#words = { id, endMs };
    this.#turn = null;
    if (deg === undefined) return;
    const way = this.#calledDeg === null ? 'same' : turnWord(this.#calledDeg, deg);
    this.#calledDeg = deg;
    if (way !== 'same') this.#turn = { id, cue: way, dueMs: endMs + AFTER_WORDS_MS };
  }

  tookBack(id: string): void {
    if (this.#words?.id === id) this.#words = null;
    if (this.#turn?.id === id) this.#turn = null;
  }

  /** A press or a mark was refused as too soon. */
  refused(nowMs: number): void {
    this.#refusedMs = nowMs;
  }

  /** The cue to be sounded now; to be asked at every guide. */
  told(guide: Pick<Guide, 'state' | 'mark' | 'nextMark' | 'etaMs'>, nowMs: number): CueName | null {
    const cue = this.#ofTheRun(guide, nowMs);
    return this.#refusal(nowMs) ?? cue;
  }

  /** Comes before all other cues, and in every state: somebody believes that a mark was counted. */
  #refusal(nowMs: number): CueName | null {
    const refusedMs = this.#refusedMs;
    if (refusedMs === null) return null;
    const isFree = this.#words === null || nowMs >= this.#words.endMs + AFTER_WORDS_MS;
    const isStale = nowMs - refusedMs > REFUSED_MS;
    if (isFree || isStale) this.#refusedMs = null;
    return isFree && !isStale ? 'too soon' : null;
  }

  #ofTheRun(guide: Pick<Guide, 'state' | 'mark' | 'nextMark' | 'etaMs'>, nowMs: number): CueName | null {
    const { state, mark, nextMark, etaMs } = guide;
    const isReached = this.#mark !== null && this.#isOnFrom(this.#mark, mark);
    this.#mark = mark;
    if (state !== 'feeding' && !(state === 'finished' && isReached)) {
      this.#turn = null;
      return null;
    }
    const isComing =
      state === 'feeding' &&
      nextMark !== null &&
      nextMark !== this.#announced &&
      etaMs !== null &&
      etaMs <= COMING_UP_MS;
    if (isComing) this.#announced = nextMark;
    if (this.#words !== null && nowMs < this.#words.endMs) return null;
    if (isReached) return 'reached';
    const turn = this.#turn;
    if (turn !== null && nowMs >= turn.dueMs) {
      this.#turn = null;
      if (nowMs < turn.dueMs + STALE_MS) return turn.cue;
    }
    return isComing && etaMs >= TOO_CLOSE_MS ? 'coming up' : null;
  }

  /** Not a press that was taken back. */
  #isOnFrom(before: number, mark: number): boolean {
    if (mark === 0 || mark === before) return false;
    return before === 0 || (this.#leads === 'head' ? mark < before : mark > before);
  }
}
