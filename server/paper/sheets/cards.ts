/** A card each for sawyer, tilt hand and tailer, the cautions, and what is done when the signal is lost. */
import type { Plan } from '../../core/plan.ts';
import { phrasesFor } from '../../core/words/phrases.ts';
import { stripLetters } from '../../wire/markCode.ts';
import type { Type } from '../draw/pen.ts';
import { heightOf, type Sheets } from '../draw/sheets.ts';
import { callFigure, feedOf, lengthOf } from '../lengths.ts';
import { wayRound } from '../wayRound.ts';
import { spokenSteps } from './routine.ts';

interface Card {
  readonly who: string;
  readonly lines: readonly string[];
}

export function cardsFor(plan: Plan): readonly Card[] {
  const said = phrasesFor(plan.voice);
  const first = spokenSteps(plan)[0]?.toDeg ?? 0;
  const { pace, units, saw, rip } = plan;
  const atFence = wayRound(plan).outerIs === 'at the fence';
  const stop = `Anyone says "${said.stopFeed}": stop the feed; the tilt stays.`;
  return [
    {
      who: 'Sawyer',
      lines: [
        rip?.feeds === 'along a line'
          ? `Follow the drawn line, ${lengthOf(rip.lineMm, units)} from the reference face where it runs straight.`
          : 'Feed straight along the fence. Do not steer.',
        `No faster than ${feedOf(pace.limitMPerMin, units)}. On "${said.easeFeed}": slower at once.`,
        `The ${plan.leads} leads. Before the wood touches the blade hear the tilt hand say ${callFigure(first, saw)}°.`,
        'See to line and hands alone; the caller sees to the marks. No words at a mark: stop the feed. Silence is never "carry on".',
        stop,
      ],
    },
    {
      who: 'Tilt hand',
      lines: [
        `Before the run the readout shows ${callFigure(plan.sawTruth?.squareShowsDeg ?? 0, saw)} with the blade square by a test block. One turn of the wheel is ${saw.degreesPerTurn}°.`,
        ...comeToFirst(plan),
        'See only the readout. At each call say the figure back and turn to it at once; be there before the next mark.',
        `Nothing heard, or not understood: hold the tilt and say "again"; not in time for the mark: "${said.stopFeed}". Never turn by guess.`,
        'Turn nothing while the wood stands still in the cut.',
        `After the last mark: "${said.runDone}". ${stop}`,
      ],
    },
    {
      who: 'Tailer',
      lines: [
        'Take the halves off behind the blade and bear their weight. Never pull.',
        `The half at the ${rip?.feeds === 'along a line' ? 'reference face' : 'fence'} is the ${atFence ? 'outer' : 'inner'} wedge. Turn neither half; lay both down as they came.`,
        'See that the kerf does not pinch the blade. In doubt say the words below.',
        'Know where the stop of the saw is, and how you reach it without crossing the line of the blade.',
        stop,
      ],
    },
  ];
}

function comeToFirst({ sawTruth }: Plan): readonly string[] {
  if (sawTruth === undefined || sawTruth.comeToFirst === 'either way') return [];
  return [`Come to the first bevel ${sawTruth.comeToFirst}, so that the looseness of the wheel is taken up.`];
}

const LINE: Type = { sizeMm: 5 };
/** Read on the wall, in a hurry. */
const ADVICE: Type = { sizeMm: 5.6 };
const HEAD_MM = 13;

export function drawCards(sheets: Sheets, plan: Plan): void {
  // A card that is cut out still says whose it is.
  const name = `frame ${plan.frame.label}, ${plan.frame.side}, strip ${stripLetters(plan)}`;
  sheets.turnPage();
  for (const { who, lines } of cardsFor(plan)) {
    const wide = sheets.wideMm - 10;
    const high = HEAD_MM + lines.reduce((sum, line) => sum + heightOf(line, wide - 6, LINE) + 1.2, 0) + 4;
    const top = sheets.take(high + 3);
    const { pen, leftMm } = sheets;
    pen.box(leftMm, top, sheets.wideMm, high, undefined, { widthMm: 0.4, dashMm: [3, 2] });
    pen.words(who, leftMm + 5, top + 9.5, { sizeMm: 9, face: 'strong' });
    pen.words(name, leftMm + sheets.wideMm - 5, top + 9, { sizeMm: 4.5, align: 'right', withinMm: 100 });
    let at = top + HEAD_MM;
    for (const line of lines) {
      pen.box(leftMm + 6, at + 2.4, 1.6, 1.6, 'black');
      at = pen.block(line, leftMm + 11, at, wide - 6, LINE) + 1.2;
    }
  }
}

export function drawCautions(sheets: Sheets, plan: Plan): void {
  const said = phrasesFor(plan.voice);
  sheets.turnPage();
  sheets.heading('When the signal is lost, or nobody calls');
  sheets.paragraph('Stop feed. Hold the tilt. Switch off.', { sizeMm: 8.5, face: 'strong' });
  sheets.paragraph('Wait until the blade stands. Never back out of a running blade.', { sizeMm: 6.5, face: 'strong' });
  sheets.list(
    [
      `What is said then: "${said.signalLost}". Where the wood came back: "${said.pulledBack}".`,
      'With the blade at a stand find on the strip the last mark that passed it. The readout must show the figure of that row; where it does not, it was lost before: say so to each other, and write down where.',
      "Whether a blade may be started in its cut, and how the stock is freed from a standing one, is for the saw's manual to say. A twisted kerf holds the blade: use no force.",
      'Go on by voice alone: the caller takes the schedule. Agree on it aloud before the saw is switched on. As the feed goes on, the bevel that was being turned to is said again; then the next mark has its row.',
    ],
    ADVICE,
  );
  sheets.heading('By voice, with no device');
  sheets.list(
    [
      'The caller sees the blade and the strip, has this paper before him and nothing else to do. Best a fourth person. Where there is none, the sawyer reads the next bevel off the strip before its mark comes, and stops the feed where that goes too fast.',
      'The first bevel is called and turned to before the wood touches the blade. Then, as the line of each mark comes to the blade, its row is said at once.',
      'The tilt hand says each figure back. A figure that comes back wrong: stop feed.',
      'Rehearse it once without wood, from the first row to the last.',
    ],
    ADVICE,
  );
  sheets.turnPage();
  sheets.heading('Cautions');
  sheets.list(plan.cautions, ADVICE);
}
