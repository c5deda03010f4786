/** A plan as a table to be read in a terminal or printed as it is, in the user's own notation. */

import { decimalsOf } from '../core/figures/decimals.ts';
import { degFigure, errorFigure, signedDegFigure } from '../core/figures/degrees.ts';
import { durationText } from '../core/figures/durations.ts';
import { feedText, rateText } from '../core/figures/feeds.ts';
import { unbrokenWords } from '../core/figures/inches.ts';
import { lengthFigure, lengthIn, lengthText } from '../core/figures/lengths.ts';
import { LENGTHS_ARE } from '../core/figures/notation.ts';
import { betweenMarksSentence } from '../core/pace/betweenMarks.ts';
import { forbiddingWarnings, standsAgainst } from '../core/plan/forbids.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { PlannedMark } from '../core/rip/plannedMark.ts';
import type { Pace } from '../core/routine/limits.ts';
import { cureSentence, DO_NOT_SAW } from '../core/text/cureText.ts';
import { whichWaySentence } from '../core/text/leadingEndText.ts';
import { LIMIT_WORDS } from '../core/text/routineWords.ts';
import { sawTruthLines } from '../core/text/sawCheckText.ts';
import { suggestionText } from '../core/text/suggestionText.ts';
import type { Warning } from '../core/warning.ts';
import { columns } from './columns.ts';
import { againstLines, offsetsLines } from './planOffsetsText.ts';
import { bendLines, bladeLines, ripLines } from './planRipText.ts';

const WIDTH_CHARS = 100;

/** The plan in words and one table, with a line feed at the end. Ends, marks and edges are named as on every sheet. */
export function planAsText(plan: Plan): string {
  return `${[
    heading(plan),
    section(DO_NOT_SAW, forbiddingLines(plan)),
    section(
      `Marks, from the heel (${LENGTHS_ARE[plan.notation]}; bevels in degrees, standing +, under -)`,
      marksTable(plan),
    ),
    section('From the offsets', offsetsLines(plan)),
    section('Beside the offsets', againstLines(plan)),
    section('The rip', ripLines(plan)),
    section('The bend', bendLines(plan)),
    section('The blade', bladeLines(plan)),
    section('The saw tells the truth', plan.sawTruth === undefined ? [] : sawTruthLines(plan.sawTruth)),
    section('Pace', paceLines(plan)),
    section('Suspects, left out of the fairing: measure there again', suspectLines(plan)),
    section(
      'Warnings',
      // A suspect bevel has its own line above, and so has what forbids the cut.
      plan.warnings.filter((warning) => warning.code !== 'suspect-bevel' && !standsAgainst(warning)).map(warningLine),
    ),
    section('Assumed, because the job does not say', plan.defaults.length === 0 ? [] : [plan.defaults.join(', ')]),
    section('Cautions', plan.cautions),
  ]
    .filter((part) => part !== '')
    .join('\n\n')}\n`;
}

const warningLine = ({ message, mark }: Warning): string => (mark === undefined ? message : `Mark ${mark}: ${message}`);

const forbiddingLines = (plan: Plan): readonly string[] =>
  forbiddingWarnings(plan).flatMap((warning) => [
    warningLine(warning),
    ...[cureSentence(warning)].flatMap((helps) => (helps === undefined ? [] : [`  ${helps}`])),
  ]);

function heading(plan: Plan): string {
  const { frame, fairing, twist, stack } = plan;
  const length = lengthIn(plan.notation);
  const unsure = plan.leadsIsSure ? '' : ' (this rests on assumed fields: confirm it before sawing)';
  const first = plan.leads === 'heel' ? 1 : plan.marks.length;
  return [
    plan.title,
    '='.repeat(Math.min(plan.title.length, WIDTH_CHARS)),
    ...pairs([
      ['Frame', `${frame.label}, ${frame.side}, moulded face ${frame.mouldedFace}`],
      ['Siding, moulding', `${length(frame.sidingMm)}, ${length(frame.mouldingMm)}`],
      ['Leads', `the ${plan.leads}, so mark ${first} comes to the blade first${unsure}`],
      ['Way round', whichWaySentence(plan)],
      ['Stock', stockSentence(plan)],
      ['Stack', `${stack.plies} laminations of ${length(stack.laminationMm)} between the wedges, ${stack.species}`],
      ...(plan.pickedUp.length === 0
        ? []
        : [
            [
              'Fairing',
              `${degFigure(fairing.rmsDeg)} degrees between the rows and the fair curve (root mean square)`,
            ] as const,
          ]),
      ...(plan.betweenMarks === undefined
        ? []
        : [['Between marks', betweenMarksSentence(plan.betweenMarks, length)] as const]),
      [
        'Twist',
        `at most ${rateText(twist.maxDegPerM, plan.notation)}; the blade follows ${rateText(twist.limitDegPerM, plan.notation)}`,
      ],
    ]),
  ].join('\n');
}

function marksTable(plan: Plan): readonly string[] {
  const length = (mm: number): string => lengthFigure(mm, plan.notation);
  const callDecimals = decimalsOf(plan.saw.readoutDeg);
  // Only offsets tell how far off a bevel may be.
  const hasErrors = plan.marks.some(({ errorDeg }) => errorDeg !== undefined);
  const beside = (head: string): readonly string[] => (hasErrors ? [head] : []);
  const row = (at: PlannedMark): readonly string[] => [
    `${at.mark}`,
    length(at.girthMm),
    length(at.stockMm),
    signedDegFigure(at.sawnDeg, 2),
    ...(hasErrors ? [at.errorDeg === undefined ? '' : errorFigure(at.errorDeg)] : []),
    signedDegFigure(at.callDeg, callDecimals),
    ...at.outerEdgesMm.map(length),
    ...at.innerEdgesMm.map(length),
  ];
  return columns([
    ['', '', 'along', '', ...beside('may be'), '', 'outer', 'wedge', 'inner', 'wedge'],
    ['mark', 'girth', 'stock', 'bevel', ...beside('off'), 'call', 'forward', 'aft', 'forward', 'aft'],
    ...plan.marks.map(row),
  ]);
}

function paceLines({ pace, crew, notation }: Plan): readonly string[] {
  const sayFeed = (mPerMin: number): string => feedText(mPerMin, notation);
  return [
    `At most ${sayFeed(pace.limitMPerMin)}, because of ${LIMIT_WORDS[pace.limitedBy]}; the crew feeds ${feedText(crew.feedMPerMin, notation, 'nearest')}.`,
    `The rip takes about ${durationText(pace.durationS)}.`,
    ...(pace.routines === undefined ? [] : routinesTable(pace.routines, sayFeed)),
    ...(pace.suggestions ?? []).map((suggestion) =>
      suggestionText(suggestion, { feed: sayFeed, length: (mm) => lengthText(mm, notation), duration: durationText }),
    ),
  ];
}

function routinesTable(
  routines: NonNullable<Pace['routines']>,
  sayFeed: (mPerMin: number) => string,
): readonly string[] {
  const rows = Object.entries(routines).map(([name, { limitMPerMin, limitedBy, durationS }]) => [
    `  ${name}`,
    limitMPerMin === null ? 'any feed' : sayFeed(limitMPerMin),
    durationText(durationS),
    limitedBy === null ? '' : `because of ${LIMIT_WORDS[limitedBy]}`,
  ]);
  const wide = [0, 1, 2].map((column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows.map(([name = '', feed = '', takes = '', because = '']) =>
    `${name.padEnd(wide[0] ?? 0)}  ${feed.padStart(wide[1] ?? 0)}  ${takes.padStart(wide[2] ?? 0)}  ${because}`.trimEnd(),
  );
}

const suspectLines = ({ fairing, notation }: Plan): readonly string[] =>
  fairing.suspects.map(
    ({ row, girthMm, foundDeg, fairDeg, reason }) =>
      `Row ${row}, girth ${lengthText(girthMm, notation)}: found ${signedDegFigure(foundDeg, 1)}, fair ${signedDegFigure(fairDeg, 1)}: ${reason}`,
  );

const section = (title: string, lines: readonly string[]): string =>
  lines.length === 0 ? '' : [title, ...lines.map((line) => wrap(line))].join('\n');

function pairs(rows: readonly (readonly [string, string])[]): readonly string[] {
  const wide = Math.max(...rows.map(([name]) => name.length));
  return rows.map(([name, text]) => wrap(`${name.padEnd(wide)}  ${text}`, wide + 2));
}

function wrap(line: string, indentChars = 2): string {
  if (line.length <= WIDTH_CHARS) return line;
  const breakAt = lastBreak(line);
  if (breakAt <= indentChars) return line;
  return `${line.slice(0, breakAt)}\n${wrap(`${' '.repeat(indentChars)}${line.slice(breakAt + 1)}`, indentChars)}`;
}

/** The last space that a line may end at; -1 where there is none. */
function lastBreak(line: string): number {
  let [at, next] = [-1, -1];
  for (const word of unbrokenWords(line)) {
    next += word.length + 1;
    if (next > WIDTH_CHARS) return at;
    at = next;
  }
  return at;
}

/** What is needed: never told as less. */
function stockSentence({ stock, frame, rip, notation }: Plan): string {
  const [thick, wide, long, rough] = [stock.thicknessMm, stock.widthMm, stock.lengthMm, rip?.roughThicknessMm].map(
    (mm) => (mm === undefined ? undefined : lengthText(mm, notation, 'at least')),
  );
  const dressed = `dressed ${thick} thick, ${lengthText(frame.sidingMm, notation)} wide`;
  return rough === undefined ? `${dressed}, ${long} long` : `get out ${rough} x ${wide} x ${long}; ${dressed}`;
}
