/** How the strip is put up, and how far it may be off: said on paper of its own behind the strip. */
import { fixedFigure } from '../../core/figures/decimals.ts';
import { unitsOf } from '../../core/figures/notation.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { MM_PER_INCH } from '../../core/units.ts';
import type { StripSize } from '../../wire/request/papers.ts';
import type { Page } from '../draw/page.ts';
import { LEADING, openPen, wrap } from '../draw/pen.ts';
import { lackingSigns, writable } from '../draw/typeface.ts';
import { atMostOf, lengthOf, rateOf } from '../paperFigures.ts';
import type { Flagged } from './flags.ts';
import { stripAllowance } from './howFarOff.ts';
import { MEDIA } from './media.ts';

/** Degrees over an offset that nobody sees by eye. */
const OUT_OF_SQUARE_DEG = 1;
const BESIDE_MM: Readonly<Record<'mm' | 'in', number>> = { mm: 100, in: 4 * MM_PER_INCH };
/** So little is easily laid wrong. */
const LITTLE_MM: Readonly<Record<'mm' | 'in', number>> = { mm: 1, in: MM_PER_INCH / 16 };
/** Narrower tapes are hardly to be had. */
const TAPE_MM = 12;

export function usePage(plan: Plan, size: StripSize, made: Flagged): Page {
  const medium = MEDIA[size];
  const [wide, high] = medium.sizeMm;
  const sentences = useSentences(plan, made);
  if (medium.kind === 'roll') return onARoll(sentences, high);
  const pen = openPen();
  const margin = 14;
  pen.words('How the mark strip is put up', margin, margin + 8, { sizeMm: 9, face: 'strong' });
  let top = margin + 15;
  for (const [head, text] of sentences) {
    pen.words(head, margin, top + 5.6, { sizeMm: 6, face: 'strong' });
    top = pen.block(text, margin + 42, top, wide - 2 * margin - 42, { sizeMm: 5.6 }) + 2.6;
  }
  return { widthMm: wide, heightMm: high, isTurned: false, items: pen.items };
}

type Sentence = readonly [head: string, text: string];

function useSentences(plan: Plan, { flags }: Flagged): readonly Sentence[] {
  const length = (mm: number): string => lengthOf(mm, plan.notation);
  const { degPerMm, mayBeOffMm, besideMm } = stripAllowance(plan);
  const [first, last] = [flags[0], flags.at(-1)];
  const other = plan.leads === 'heel' ? 'head' : 'heel';
  const bare = flags.filter(({ lane }) => lane === null).map(({ mark }) => mark);
  const besideLineMm = BESIDE_MM[unitsOf(plan.notation)];
  const skewMm = besideLineMm * Math.tan((OUT_OF_SQUARE_DEG * Math.PI) / 180);
  return [
    [
      'Which way',
      `The ${plan.leads} leads: the arrow points to the end that meets the blade first, with mark ${first?.mark}; mark ${last?.mark} at the ${other} comes last.${plan.leadsIsSure ? '' : ' This rests on fields that were filled in: confirm it before sawing.'}`,
    ],
    [
      'Where',
      `The upper side of the stock is narrow and is sawn in two, and its flats are glue faces: no paper, pin or glue on them. Put the strip on a lath that is pinned in the end waste only and lies clear of the line, the guard and the guides; or print it on narrow tape, on the upper side and clear of the line. Beside the kerf there is at least ${length(besideMm[0])} on the half that becomes the outer wedge and ${length(besideMm[1])} on the other${Math.max(...besideMm) < TAPE_MM ? ': too little for a tape, take the lath' : ''}.`,
    ],
    [
      'How far off',
      mayBeOffMm === null
        ? 'The bevel does not change along this stock, so that the strip may lie anywhere.'
        : `Where the bevel changes fastest it does so by ${rateOf(degPerMm * 1000, plan.notation)}: a strip that lies ${length(LITTLE_MM[unitsOf(plan.notation)])} off along the stock makes the bevel up to ${fixedFigure(degPerMm * LITTLE_MM[unitsOf(plan.notation)], 3)}° wrong. It may lie at most ${atMostOf(mayBeOffMm, plan.notation)} off: then the bevel is wrong by half a step of the readout (${plan.saw.readoutDeg / 2}°). That must do for paper, joins, pins and eye together.`,
    ],
    [
      'Square',
      `Square the marks across to the line. From a strip that lies ${length(besideLineMm)} beside the line, ${OUT_OF_SQUARE_DEG}° out of square is ${length(skewMm)} along the stock.`,
    ],
    [
      'Check',
      `Mark ${first?.mark} to mark ${last?.mark} is ${length(last?.alongMm ?? 0)} by a steel tape, once it is joined and again on the lath: paper grows in damp air. The two bars are 100 mm and 4 in; where they are not, print again at 100 %.`,
    ],
    [
      'Codes',
      `Each QR code stands at its mark and is read by a camera or a hand scanner that reads such codes. Plain bar codes are on the page Codes of a run.${bare.length === 0 ? '' : ` No room for a code: mark${bare.length === 1 ? '' : 's'} ${listOf(bare)}. Their lines stand at their places; press the pedal there, or call by voice.`}`,
    ],
    ...signsOf(plan.title),
  ];
}

/** Two titles that differ in such a sign only must not be taken for each other. */
function signsOf(title: string): readonly Sentence[] {
  const lacking = lackingSigns(title);
  return lacking.length === 0
    ? []
    : [
        [
          'Signs',
          `The typeface lacks some of the title; each is written by its number: ${lacking.map(writable).join(' ')}.`,
        ],
      ];
}

const LISTED = 12;
const listOf = (marks: readonly number[]): string =>
  marks.length <= LISTED ? marks.join(', ') : `${marks.slice(0, LISTED).join(', ')} and ${marks.length - LISTED} more`;

/** In as many lines as the tape is wide for. */
function onARoll(sentences: readonly Sentence[], wideMm: number): Page {
  const text = sentences.map(([head, said]) => `${head}: ${said}`).join(' ');
  const sizeMm = wideMm < 30 ? 3.2 : 3.6;
  const room = wideMm - 7;
  let long = 200;
  while (wrap(writable(text), 'plain', sizeMm, long).length * sizeMm * LEADING > room) long += 20;
  const pen = openPen();
  pen.block(text, 4, 3, long, { sizeMm });
  return { widthMm: long + 8, heightMm: wideMm, isTurned: true, items: pen.items };
}
