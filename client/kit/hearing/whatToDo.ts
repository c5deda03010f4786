/** What helps an ear against what a run asks of it. */
import { type Exposure, LOUDEST_SIGNAL_DBA } from '../../../server/core/hearing/exposure.ts';

/** Protection is called for from here on. Source: NIOSH 98-126, the recommended limit for a day. */
const PROTECT_FROM_DBA = 85;

/** What helps most stands first; nothing where nothing need be done. */
export function whatToDo(asked: {
  readonly exposure: Exposure;
  /** No ear protection has been entered. */
  readonly isBare: boolean;
  readonly isNoiseKnown: boolean;
}): readonly string[] {
  const { exposure, isBare, isNoiseKnown } = asked;
  const { verdict, noiseAtEarDba, wordsAtEarDba, noisePercent, runsADay } = exposure;
  const todo: string[] = [];
  if (isBare && noiseAtEarDba >= PROTECT_FROM_DBA) todo.push('Wear ear protection that lets the calls through.');
  if (verdict === 'fine') return todo;
  if (wordsAtEarDba > LOUDEST_SIGNAL_DBA) todo.push(`Turn the words down: never above ${LOUDEST_SIGNAL_DBA} dBA.`);
  else if (noisePercent <= 50) todo.push('Turn the words down: they are what is too loud.');
  if (!isBare && noisePercent > 50) todo.push('Wear better protection: muffs over plugs.');
  if (!isNoiseKnown) todo.push('Have the noise measured.');
  if (isNoiseKnown)
    todo.push(
      runsADay >= 1 ? `No more than ${runsADay} such run${runsADay === 1 ? '' : 's'} a day.` : 'Do not run like this.',
    );
  return todo;
}
