/** The pace of a plan that is being made, with what would help it. */

import type { BevelCurve } from '../frame/bevelCurve.ts';
import type { Job } from '../job.ts';
import { interpolate } from '../numeric/interpolate.ts';
import type { Orientation } from '../rip/leadingEnd.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import type { RipPlace } from '../rip/rip.ts';
import type { Pace } from '../routine/limits.ts';
import { lastRow, rowAt } from '../rowAt.ts';
import { callFor, trueTiltDeg } from '../saw/readout.ts';
import { MM_PER_INCH } from '../units.ts';
import { callText } from '../words/callText.ts';
import { numberWords } from '../words/numberWords.ts';
import { spokenLengthS } from '../words/spokenLength.ts';
import type { VoiceChoice } from '../words/voiceChoice.ts';
import { otherWords } from './fewerWordsSuggestion.ts';
import { paceOf } from './pace.ts';
import type { Respaceable } from './respace.ts';
import { suggestionsFor } from './suggestions.ts';

interface PlanInTheMaking {
  readonly job: Job;
  readonly bevels: BevelCurve;
  readonly orientation: Orientation;
  /** From heel to head, marks among them. */
  readonly places: readonly RipPlace[];
  readonly marks: readonly PlannedMark[];
  readonly twistLimitDegPerM: number;
}

export function planPace(making: PlanInTheMaking): Pace {
  const { crew, voice } = making.job;
  const rip = respaceable(making, voice);
  const pace = paceOf(rip);
  const limitIn = (words: Pick<VoiceChoice, 'form' | 'numbers'>): number =>
    paceOf(respaceable(making, { ...voice, ...words })).limitMPerMin;
  const suggestions = [...suggestionsFor(pace, rip), ...otherWords(pace, crew.feedMPerMin, voice, limitIn)];
  return { ...pace, suggestions };
}

function respaceable(
  { job, bevels, orientation, places, marks, twistLimitDegPerM }: PlanInTheMaking,
  voice: VoiceChoice,
): Respaceable {
  const { crew, saw } = job;
  const headLeads = orientation.leads === 'head';
  const inRunOrder = <T>(fromHeel: readonly T[]): readonly T[] => (headLeads ? fromHeel.toReversed() : fromHeel);
  const girthsMm = places.map(({ girthMm }) => girthMm);
  const stocksMm = places.map(({ stockMm }) => stockMm);
  const tiltDegAt = (girthMm: number): number => orientation.hand * bevels.bevelAtDeg(girthMm);
  const wordsS = (mark: number, deg: number): number => spokenLengthS(callText({ mark, deg }, voice), voice.language);
  return {
    marks: inRunOrder(
      marks.map(({ mark, girthMm, stockMm, callDeg }) => ({
        mark,
        alongMm: stockMm,
        callDeg,
        tiltDeg: tiltDegAt(girthMm),
        wordsS: wordsS(mark, callDeg),
      })),
    ),
    profile: inRunOrder(places.map(({ stockMm, tiltDeg }) => ({ alongMm: stockMm, tiltDeg }))),
    crew,
    saw: {
      degreesPerTurn: saw.degreesPerTurn,
      ...(saw.turnsTable === undefined ? {} : { turnsTable: saw.turnsTable }),
      ...(saw.backlashTurns === undefined ? {} : { backlashTurns: saw.backlashTurns }),
      readoutDeg: saw.readoutDeg,
      twistLimitDegPerM,
      feedMPerMin: saw.feedMPerMin ?? null,
    },
    figureWordsS: (deg) => spokenLengthS(numberWords(deg, voice.numbers, voice.language), voice.language),
    girthsMm: marks.map(({ girthMm }) => girthMm),
    headLeads,
    wholeMm: job.units === 'mm' ? 1 : MM_PER_INCH / 16,
    markAt(girthMm, mark) {
      const tiltDeg = tiltDegAt(girthMm);
      const callDeg = callFor(saw, tiltDeg);
      return {
        mark,
        alongMm: interpolate(girthsMm, stocksMm, girthMm),
        callDeg,
        tiltDeg,
        wordsS: wordsS(mark, callDeg),
      };
    },
    straysDeg(markGirthsMm) {
      const calledDeg = markGirthsMm.map((mm) => trueTiltDeg(callFor(saw, tiltDegAt(mm)), saw.readoutTable));
      const [fromMm, toMm] = [rowAt(markGirthsMm, 0), lastRow(markGirthsMm)];
      return places
        .filter(({ girthMm }) => girthMm >= fromMm && girthMm <= toMm)
        .reduce(
          (most, { girthMm, tiltDeg }) =>
            Math.max(most, Math.abs(interpolate(markGirthsMm, calledDeg, girthMm) - tiltDeg)),
          0,
        );
    },
  };
}
