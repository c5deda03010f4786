import { interpolate } from '../numeric/interpolate.ts';
import type { Plan } from '../plan/plan.ts';
import { degreeSteps } from '../routine/degreeSteps.ts';
import { type DegreeStep, type Routine, type RunMode, USUAL_ROUTINE } from '../routine/routine.ts';
import { routineNamed } from '../routine/routines.ts';
import { rowAt } from '../rowAt.ts';
import { callText } from '../words/callText.ts';
import { numberWords } from '../words/numberWords.ts';
import { phrasesFor } from '../words/phrases.ts';
import type { RunSetup, Station } from './engine/state.ts';
import { believableFeed } from './place/believableFeed.ts';

/**
 * The plan turned round into the order of the run: the end that leads comes first and is position 0 where its mark is.
 * `durationsMs`: how long each phrase of the run lasts as rendered, by its words.
 */
export function makeSetup(
  plan: Plan,
  mode: RunMode,
  durationsMs: Readonly<Record<string, number>>,
  routine: Routine = USUAL_ROUTINE,
): RunSetup {
  const headLeads = plan.leads === 'head';
  const marks = headLeads ? plan.marks.toReversed() : plan.marks;
  const last = plan.marks.at(-1);
  if (last === undefined) throw new Error('a plan without marks cannot be run');
  const position = (stockMm: number): number => (headLeads ? last.stockMm - stockMm : stockMm);
  const stations: Station[] = marks.map((mark) => ({
    mark: mark.mark,
    positionMm: position(mark.stockMm),
    tiltDeg: plan.hand * mark.sawnDeg,
    callDeg: mark.callDeg,
  }));
  const girths = plan.marks.map((mark) => mark.girthMm);
  const stocks = plan.marks.map((mark) => mark.stockMm);
  const between = plan.curve
    .filter((point) => point.girthMm > rowAt(girths, 0) && point.girthMm < last.girthMm)
    .map((point) => ({
      positionMm: position(interpolate(girths, stocks, point.girthMm)),
      tiltDeg: plan.hand * point.bevelDeg,
    }));
  const profile = [...between, ...stations.map(({ positionMm, tiltDeg }) => ({ positionMm, tiltDeg }))]
    .sort((a, b) => a.positionMm - b.positionMm)
    .filter((point, index, all) => index === 0 || point.positionMm > rowAt(all, index - 1).positionMm);
  const line = {
    positionsMm: profile.map((point) => point.positionMm),
    tiltsDeg: profile.map((point) => point.tiltDeg),
  };
  return {
    mode,
    routine,
    stations,
    callTexts: marks.map((mark) => callText({ mark: mark.mark, deg: mark.callDeg }, plan.voice)),
    ...(plan.voice.form === 'angle'
      ? {}
      : { shortTexts: marks.map(({ callDeg }) => numberWords(callDeg, plan.voice.numbers, plan.voice.language)) }),
    ...(routineNamed(routine).isByDegrees ? { steps: stepsOf(plan, line, rowAt(stations, 0).callDeg) } : {}),
    phrases: phrasesFor(plan.voice),
    durationsMs,
    profile: line,
    crew: plan.crew,
    fastestMPerMin: believableFeed(plan),
    ...sawOf(plan.saw),
  };
}

const sawOf = ({
  degreesPerTurn,
  turnsTable,
  backlashTurns,
  feedMPerMin,
}: Plan['saw']): Pick<RunSetup, 'degreesPerTurn' | 'turnsTable' | 'backlashTurns' | 'sawFeedMPerMin'> => ({
  degreesPerTurn,
  ...(turnsTable === undefined ? {} : { turnsTable }),
  ...(backlashTurns === undefined ? {} : { backlashTurns }),
  ...(feedMPerMin === undefined ? {} : { sawFeedMPerMin: feedMPerMin }),
});

function stepsOf({ saw, voice }: Plan, line: RunSetup['profile'], firstDeg: number): readonly DegreeStep[] {
  const { readoutDeg, readoutTable } = saw;
  return degreeSteps(line, firstDeg, {
    readoutDeg,
    readoutTable,
    words: (deg) => numberWords(deg, voice.numbers, voice.language),
  });
}
