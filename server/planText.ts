/** A plan as a table to be read in a terminal or printed as it is, in the user's own units. */

import type { Pace, PaceLimit, Plan, PlannedMark } from './core/plan.ts';
import {
  allowanceSentence,
  battenSentence,
  endsSentence,
  feedSentence,
  leftSentence,
} from './core/rip/ripSentences.ts';
import { chalkSentence, handChangeSentence, whichWaySentence } from './core/rip/whichWay.ts';
import { roundedDown } from './core/schedule/roundedDown.ts';
import { suggestionText } from './core/schedule/suggestionText.ts';
import { MM_PER_INCH } from './core/units.ts';

const WIDTH_CHARS = 100;

/** The plan in words and one table, with a line feed at the end. Ends, marks and edges are named as on every sheet. */
export function planAsText(plan: Plan): string {
  return `${[
    heading(plan),
    section(
      `Marks, from the heel (${lengthsAre(plan.units)}; bevels in degrees, standing +, under -)`,
      marksTable(plan),
    ),
    section('The rip', ripLines(plan)),
    section('Pace', paceLines(plan)),
    section('Suspects, left out of the fairing: measure there again', suspectLines(plan)),
    section(
      'Warnings',
      // A suspect bevel has its own line above.
      plan.warnings
        .filter(({ code }) => code !== 'suspect-bevel')
        .map(({ message, mark }) => (mark === undefined ? message : `Mark ${mark}: ${message}`)),
    ),
    section('Filled in, because the job does not say', plan.defaults.length === 0 ? [] : [plan.defaults.join(', ')]),
    section('Cautions', plan.cautions),
  ]
    .filter((part) => part !== '')
    .join('\n\n')}\n`;
}

function heading(plan: Plan): string {
  const { frame, stock, fairing, twist, stack } = plan;
  const length = (mm: number): string => sayLength(mm, plan.units);
  const unsure = plan.leadsIsSure ? '' : ' (this rests on fields that were filled in: confirm it before sawing)';
  const first = plan.leads === 'heel' ? 1 : plan.marks.length;
  return [
    plan.title,
    '='.repeat(Math.min(plan.title.length, WIDTH_CHARS)),
    ...pairs([
      ['Frame', `${frame.label}, ${frame.side}, moulded face ${frame.mouldedFace}`],
      ['Siding, moulding', `${length(frame.sidingMm)}, ${length(frame.mouldingMm)}`],
      ['Leads', `the ${plan.leads}, so mark ${first} comes to the blade first${unsure}`],
      ['Way round', whichWaySentence(plan)],
      ['Stock', [stock.thicknessMm, stock.widthMm, stock.lengthMm].map(length).join(' x ')],
      ['Stack', `${stack.plies} laminations of ${length(stack.laminationMm)} between the wedges, ${stack.species}`],
      ['Fairing', `${fairing.rmsDeg.toFixed(2)} degrees between the rows and the fair curve (root mean square)`],
      [
        'Twist',
        `at most ${twist.maxDegPerM.toFixed(1)} degrees a metre; the blade follows ${twist.limitDegPerM.toFixed(1)}`,
      ],
    ]),
  ].join('\n');
}

function marksTable(plan: Plan): readonly string[] {
  const length = (mm: number): string => sayFigure(mm, plan.units);
  const callDecimals = decimalsOf(plan.saw.readoutDeg);
  const row = (at: PlannedMark): readonly string[] => [
    `${at.mark}`,
    length(at.girthMm),
    length(at.stockMm),
    signed(at.sawnDeg, 2),
    signed(at.callDeg, callDecimals),
    ...at.outerEdgesMm.map(length),
    ...at.innerEdgesMm.map(length),
  ];
  return columns([
    ['', '', 'along', '', '', 'outer', 'wedge', 'inner', 'wedge'],
    ['mark', 'girth', 'stock', 'bevel', 'call', 'forward', 'aft', 'forward', 'aft'],
    ...plan.marks.map(row),
  ]);
}

/** Also where on the straight wedges each mark lies, and what the cut leaves on the inner one. */
function ripLines(plan: Plan): readonly string[] {
  const { rip, units, marks } = plan;
  if (rip === undefined) return [];
  const length = (mm: number): string => sayLength(mm, units);
  const batten = battenSentence(rip, length);
  const figure = (mm: number): string => sayFigure(mm, units);
  return [
    feedSentence(rip, plan.frame.sidingMm, length),
    allowanceSentence(rip, length),
    chalkSentence(plan),
    ...rip.handChanges.map((change) => handChangeSentence(change, plan, length)),
    leftSentence(rip, length),
    endsSentence(rip, length),
    ...(batten === undefined ? [] : [batten]),
    ...columns([
      ['', 'along', 'on inner', 'line', 'line', 'inner left', 'inner left'],
      ['mark', 'stock', 'wedge', 'upper', 'lower', 'degrees', `${units}`],
      ...marks.map((at) => [
        `${at.mark}`,
        figure(at.stockMm),
        figure(at.innerStockMm),
        figure(at.lineTopMm),
        figure(at.lineBottomMm),
        signed(at.innerLeftDeg ?? 0, 2),
        units === 'mm' ? signed(at.innerLeftMm ?? 0, 2) : signed((at.innerLeftMm ?? 0) / MM_PER_INCH, 3),
      ]),
    ]),
  ];
}

function paceLines({ pace, crew, units }: Plan): readonly string[] {
  return [
    `At most ${sayFeed(pace.limitMPerMin)}, because of ${BECAUSE[pace.limitedBy]}; the crew feeds ${crew.feedMPerMin} m/min.`,
    `The rip takes about ${sayDuration(pace.durationS)}.`,
    ...(pace.routines === undefined ? [] : routinesTable(pace.routines)),
    ...(pace.suggestions ?? []).map((suggestion) =>
      suggestionText(suggestion, { feed: sayFeed, length: (mm) => sayLength(mm, units), duration: sayDuration }),
    ),
  ];
}

const BECAUSE: Readonly<Record<PaceLimit, string>> = {
  words: 'the words of the call',
  reaction: "the tilt hand's reaction",
  wheel: 'the turning of the wheel',
  twist: 'the twist that the blade follows',
  saw: 'the saw',
};

function routinesTable(routines: NonNullable<Pace['routines']>): readonly string[] {
  const rows = Object.entries(routines).map(([name, { limitMPerMin, limitedBy, durationS }]) => [
    `  ${name}`,
    limitMPerMin === null ? 'any feed' : sayFeed(limitMPerMin),
    sayDuration(durationS),
    limitedBy === null ? '' : `because of ${BECAUSE[limitedBy]}`,
  ]);
  const wide = [0, 1, 2].map((column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows.map(([name = '', feed = '', takes = '', because = '']) =>
    `${name.padEnd(wide[0] ?? 0)}  ${feed.padStart(wide[1] ?? 0)}  ${takes.padStart(wide[2] ?? 0)}  ${because}`.trimEnd(),
  );
}

/** A limit is never told as more than it is. */
const sayFeed = (mPerMin: number): string =>
  `${mPerMin < 0.1 ? roundedDown(mPerMin) : roundedDown(mPerMin).toFixed(2)} m/min`;

const suspectLines = ({ fairing, units }: Plan): readonly string[] =>
  fairing.suspects.map(
    ({ row, girthMm, foundDeg, fairDeg, reason }) =>
      `Row ${row}, girth ${sayLength(girthMm, units)}: found ${signed(foundDeg, 1)}, fair ${signed(fairDeg, 1)}: ${reason}`,
  );

const section = (title: string, lines: readonly string[]): string =>
  lines.length === 0 ? '' : [title, ...lines.map((line) => wrap(line))].join('\n');

const lengthsAre = (units: Plan['units']): string =>
  units === 'mm' ? 'lengths in mm' : 'lengths in inches, to the nearest 1/32';

const sayLength = (mm: number, units: Plan['units']): string => `${sayFigure(mm, units)} ${units}`;

function sayFigure(mm: number, units: Plan['units']): string {
  if (units === 'mm') return signless(mm.toFixed(1));
  const thirtySeconds = Math.round((Math.abs(mm) / MM_PER_INCH) * 32);
  const sign = mm < 0 && thirtySeconds > 0 ? '-' : '';
  const whole = Math.floor(thirtySeconds / 32);
  const fraction = sayFraction(thirtySeconds % 32);
  return `${sign}${[whole === 0 && fraction !== '' ? '' : `${whole}`, fraction].filter((part) => part !== '').join(' ')}`;
}

function sayFraction(thirtySeconds: number): string {
  if (thirtySeconds === 0) return '';
  let [over, under] = [thirtySeconds, 32];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return `${over}/${under}`;
}

function signed(deg: number, decimals: number): string {
  const figure = signless(deg.toFixed(decimals));
  return Number(figure) > 0 ? `+${figure}` : figure;
}

/** No minus before a nought. */
const signless = (figure: string): string => (Number(figure) === 0 ? figure.replace('-', '') : figure);

/** As many decimals as the readout's step has: 0.5 has one. */
const decimalsOf = (step: number): number => `${Number(step.toFixed(3))}`.split('.')[1]?.length ?? 0;

function sayDuration(seconds: number): string {
  const whole = Math.round(seconds);
  return whole < 60 ? `${whole} s` : `${Math.floor(whole / 60)} min ${whole % 60} s`;
}

function pairs(rows: readonly (readonly [string, string])[]): readonly string[] {
  const wide = Math.max(...rows.map(([name]) => name.length));
  return rows.map(([name, text]) => wrap(`${name.padEnd(wide)}  ${text}`, wide + 2));
}

/** Figures stand under each other, so every column is set to the right. */
function columns(rows: readonly (readonly string[])[]): readonly string[] {
  const wide = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows.map((row) => row.map((cell, column) => cell.padStart(wide[column] ?? 0)).join('  '));
}

function wrap(line: string, indentChars = 2): string {
  if (line.length <= WIDTH_CHARS) return line;
  const breakAt = line.lastIndexOf(' ', WIDTH_CHARS);
  if (breakAt <= indentChars) return line;
  return `${line.slice(0, breakAt)}\n${wrap(`${' '.repeat(indentChars)}${line.slice(breakAt + 1)}`, indentChars)}`;
}
