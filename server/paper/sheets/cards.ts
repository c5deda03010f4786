/** A card each for sawyer, tilt hand, caller and tailer, the cautions, and what is done when the signal is lost. */
import type { Plan } from '../../core/plan/plan.ts';
import { squareSentence } from '../../core/text/sawCheckText.ts';
import { phrasesFor } from '../../core/words/phrases.ts';
import { stripLetters } from '../../wire/message/markCode.ts';
import type { Type } from '../draw/pen.ts';
import { heightOf, type Sheets } from '../draw/sheets.ts';
import { callFigure, feedOf, lengthOf } from '../paperFigures.ts';
import { wayRound } from '../wayRound.ts';
import { spokenSteps } from './schedule/spokenSteps.ts';
import { voiceFeedMPerMin } from './schedule/voiceFeed.ts';
import { firstBevel, lineSentence } from './wood/line.ts';

interface Card {
  readonly who: string;
  readonly lines: readonly string[];
}

export function cardsFor(plan: Plan): readonly Card[] {
  const stop = `Anyone says "${phrasesFor(plan.voice).stopFeed}": stop the feed; the tilt stays.`;
  return [
    { who: 'Sawyer', lines: [...sawyerLines(plan), stop] },
    { who: 'Tilt hand', lines: tiltHandLines(plan, stop) },
    { who: 'Caller, by voice', lines: [...callerLines(plan), stop] },
    { who: 'Tailer', lines: [...tailerLines(plan), stop] },
  ];
}

function sawyerLines(plan: Plan): readonly string[] {
  const { pace, notation, saw, leads } = plan;
  const first = spokenSteps(plan)[0]?.toDeg ?? 0;
  return [
    ...feedLines(plan),
    `No faster than ${feedOf(pace.limitMPerMin, notation)}; by voice ${feedOf(voiceFeedMPerMin(plan), notation)}. On "${phrasesFor(plan.voice).easeFeed}": slower at once.`,
    `The ${leads} leads. Before the wood touches the blade hear the tilt hand say ${callFigure(first, saw)}°.`,
    'Watch only the line and your hands; the caller watches the marks. No words at a mark: stop the feed. Silence never means "carry on".',
  ];
}

/** How it is fed, and where the cut runs: along a fence its setting, along a line the line that is seen, on the upper side. */
function feedLines(plan: Plan): readonly string[] {
  const { rip, marks, notation } = plan;
  if (rip?.feeds !== 'along a line') {
    const setting = lineSentence(plan);
    return [
      `Feed straight along the fence. Do not steer.`,
      ...(setting === '' ? [] : [`The fence: ${setting.charAt(0).toLowerCase()}${setting.slice(1)}`]),
    ];
  }
  const [first, last] = plan.leads === 'head' ? [marks.at(-1), marks[0]] : [marks[0], marks.at(-1)];
  const farthest = marks.reduce((a, b) => (b.lineTopMm > a.lineTopMm ? b : a));
  const nearest = marks.reduce((a, b) => (b.lineTopMm < a.lineTopMm ? b : a));
  const named = [...new Set([first, nearest, farthest, last])].flatMap((at) =>
    at === undefined ? [] : [`${lengthOf(at.lineTopMm, notation)} at mark ${at.mark}`],
  );
  return [
    `Follow the line drawn on the upper side. From the reference face it is ${named.join(', ')}; the others stand in the table of the lines.`,
    `The cut is straight, ${lengthOf(rip.lineMm, notation)} from the reference face, only at ${lengthOf(rip.straightAtMm, notation)} above the table.`,
  ];
}

function tiltHandLines(plan: Plan, stop: string): readonly string[] {
  const said = phrasesFor(plan.voice);
  const { saw, sawTruth } = plan;
  const first = firstBevel(plan);
  return [
    squareSentence(sawTruth ?? { squareShowsDeg: 0 }),
    `One turn of the wheel is ${saw.degreesPerTurn}°.`,
    ...(first === '' ? [] : [first]),
    'Watch only the readout. At each call say the figure back and turn to it at once. Be there before the next mark.',
    `Nothing heard, or not understood: hold the tilt and say "again". Not in time for the mark: "${said.stopFeed}". Never guess.`,
    'Turn nothing while the wood stands still in the cut.',
    `After the last mark: "${said.runDone}". ${stop}`,
  ];
}

function callerLines(plan: Plan): readonly string[] {
  const { stopFeed } = phrasesFor(plan.voice);
  return [
    'Before the cut ask what the readout shows at square. If that is not the figure on your sheet, shift every figure by the rule there.',
    'Stand where you see the blade and the strip. A finger on the row; look at nothing else.',
    'When the line of a mark is at the blade, say its row, loud and at once. Then find the next row, and wait.',
    `"Again": say the same bevel once more, at once. If the next mark comes before it is understood: "${stopFeed}".`,
    `Hear the figure said back. Said back wrong, or not said: "${stopFeed}". Lost the row: "${stopFeed}".`,
    'At a stop keep your finger on the row, and call nothing while the wood stands. When the feed goes on, repeat the bevel that you called last. Then go on with the next mark.',
  ];
}

function tailerLines(plan: Plan): readonly string[] {
  const atFence = wayRound(plan).outerIs === 'at the fence';
  const face = plan.rip?.feeds === 'along a line' ? 'reference face' : 'fence';
  return [
    'Take the halves off behind the blade and bear their weight. Never pull.',
    `The half at the ${face} is the ${atFence ? 'outer' : 'inner'} wedge. Turn neither half; lay both down as they came.`,
    'Watch that the kerf does not pinch the blade. When in doubt say the words below.',
    'Know where the stop of the saw is, and how you reach it without crossing the line of the blade.',
  ];
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
      'With the blade at a stand find on the strip the last mark that passed it. Until the next mark the readout must lie between "Readout" and "Turn to" of its row; where it does not, the bevel was already wrong: tell each other, and write down where.',
      "Whether a blade may be started in its cut, and how the stock is freed from a standing one, is for the saw's manual to say. A twisted kerf holds the blade: use no force.",
      'Go on by voice alone: the caller takes the schedule. Agree on it aloud before you switch the saw on. When the feed goes on, the caller repeats the bevel that was called last. Then go on with the next mark.',
    ],
    ADVICE,
  );
  sheets.heading('By voice, with no device');
  sheets.list(
    [
      'The caller sees the blade and the strip, holds this paper and has nothing else to do. A fourth person is best. If there is none, the sawyer reads the next bevel off the strip before its mark comes, and stops the feed if that goes too fast.',
      'Call the first bevel and turn to it before the wood touches the blade. Then, when the line of each mark is at the blade, say its row at once.',
      'The tilt hand says each figure back. A figure that comes back wrong: stop feed.',
      'Rehearse it once without wood, from the first row to the last.',
    ],
    ADVICE,
  );
  sheets.turnPage();
  sheets.heading('Cautions');
  sheets.list(plan.cautions, ADVICE);
}
