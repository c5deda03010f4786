/** Sheets that are filled from the top: each with the job's name over it and the word of caution under it. */
import type { Plan } from '../../core/plan/plan.ts';
import { stripLetters } from '../../wire/message/markCode.ts';
import type { SheetSize } from '../../wire/request/papers.ts';
import type { Page } from './page.ts';
import { openPen, type Pen, type Type } from './pen.ts';
import { lackingSigns, writable } from './typeface.ts';

const SIZES: Readonly<Record<SheetSize, readonly [widthMm: number, heightMm: number]>> = {
  a4: [210, 297],
  letter: [215.9, 279.4],
};
const MARGIN_MM = 12;
const TOP_MM = 31;
const FOOT_MM = 9;

/** Type that is read in a dim shop at arm's length. */
export const TEXT: Type = { sizeMm: 5 };

export interface Sheets {
  readonly leftMm: number;
  readonly wideMm: number;
  /** The page that is being filled. */
  readonly pen: Pen;
  /** Where the next thing goes. */
  topMm: number;
  /** How high what is left of the page is. */
  leftOverMm(): number;
  turnPage(): void;
  /** The number of the page that is being filled, from 1. */
  readonly sheet: number;
  /** Gives the top of so much room, on a new page where this one has too little, and takes it. */
  take(highMm: number): number;
  heading(text: string): void;
  paragraph(text: string, type?: Type): void;
  /** A table of two columns: what, and what it is. */
  facts(rows: readonly (readonly [string, string])[], headMm?: number): void;
  list(texts: readonly string[], type?: Type): void;
  pages(): readonly Page[];
}

export function openSheets(size: SheetSize, name: string, plan: Plan): Sheets {
  const [widthMm, heightMm] = SIZES[size];
  const pens: Pen[] = [];
  const bottomMm = heightMm - MARGIN_MM - FOOT_MM;
  const fullMm = bottomMm - TOP_MM;

  const sheets: Sheets = {
    leftMm: MARGIN_MM,
    wideMm: widthMm - 2 * MARGIN_MM,
    get pen() {
      const pen = pens.at(-1);
      if (pen === undefined) throw new Error('no page was begun');
      return pen;
    },
    topMm: TOP_MM,
    get sheet() {
      return pens.length;
    },
    leftOverMm: () => bottomMm - sheets.topMm,
    turnPage() {
      pens.push(openPen());
      sheets.topMm = TOP_MM;
    },
    take(highMm) {
      if (highMm > sheets.leftOverMm() && sheets.topMm > TOP_MM) sheets.turnPage();
      const top = sheets.topMm;
      sheets.topMm += Math.min(highMm, fullMm);
      return top;
    },
    heading(text) {
      const top = sheets.take(11);
      sheets.pen.words(text, MARGIN_MM, top + 8, { sizeMm: 7, face: 'strong', withinMm: sheets.wideMm });
    },
    paragraph(text, type = TEXT) {
      const high = heightOf(text, sheets.wideMm, type);
      // Room first: it may begin another page, and with it another pen.
      const top = sheets.take(high + 1.5);
      sheets.pen.block(text, MARGIN_MM, top, sheets.wideMm, type);
    },
    facts(rows, headMm = 42) {
      for (const [what, is] of rows) {
        const wide = sheets.wideMm - headMm;
        const top = sheets.take(Math.max(heightOf(is, wide, TEXT), TEXT.sizeMm * 1.25) + 1);
        sheets.pen.words(what, MARGIN_MM, top + TEXT.sizeMm, { ...TEXT, face: 'strong', withinMm: headMm - 3 });
        sheets.pen.block(is, MARGIN_MM + headMm, top, wide, TEXT);
      }
    },
    list(texts, type = TEXT) {
      for (const text of texts) {
        const top = sheets.take(heightOf(text, sheets.wideMm - 6, type) + 1.5);
        sheets.pen.box(MARGIN_MM + 1, top + type.sizeMm * 0.5, 1.6, 1.6, 'black');
        sheets.pen.block(text, MARGIN_MM + 6, top, sheets.wideMm - 6, type);
      }
    },
    pages: () =>
      pens.map((pen, index) => {
        frame(pen, { widthMm, heightMm, name, plan, of: pens.length, page: index + 1 });
        return { widthMm, heightMm, isTurned: false, items: pen.items };
      }),
  };
  sheets.turnPage();
  return sheets;
}

/** How high (mm) a block is. */
export function heightOf(text: string, wideMm: number, type: Type): number {
  return openPen().block(text, 0, 0, wideMm, type);
}

interface Framed {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly name: string;
  readonly plan: Plan;
  readonly page: number;
  readonly of: number;
}
function frame(pen: Pen, { widthMm, heightMm, name, plan, page, of }: Framed): void {
  const right = widthMm - MARGIN_MM;
  const number = `${page} of ${of}`;
  pen.words(name, MARGIN_MM, MARGIN_MM + 7, { sizeMm: 8.5, face: 'strong', withinMm: right - MARGIN_MM - 70 });
  const lead = `${plan.leads.toUpperCase()} LEADS${plan.leadsIsSure ? '' : ': CONFIRM'}`;
  pen.words(lead, right, MARGIN_MM + 7, { sizeMm: 7, face: 'strong', align: 'right', withinMm: 66 });
  const title = right - MARGIN_MM - 52;
  pen.words(plan.title, MARGIN_MM, MARGIN_MM + 13.5, { sizeMm: 4.5, withinMm: title });
  pen.words(`strip ${stripLetters(plan)}, sheet ${number}`, right, MARGIN_MM + 13.5, {
    sizeMm: 4.5,
    align: 'right',
    withinMm: 50,
  });
  const under = MARGIN_MM + 16;
  for (const y of [under, under + 0.9])
    pen.line(
      [
        [MARGIN_MM, y],
        [right, y],
      ],
      { widthMm: 0.35 },
    );
  const lacking = lackingSigns(plan.title);
  if (lacking.length > 0)
    pen.words(
      `The typeface lacks ${lacking.length === 1 ? 'a sign' : 'signs'} of the title, written by number: ${lacking.map(writable).join(' ')}`,
      MARGIN_MM,
      heightMm - MARGIN_MM - 5.2,
      { sizeMm: 3, withinMm: right - MARGIN_MM },
    );
  const foot =
    "By the Mark advises only: the saw's manual and the rules of your shop go first. In doubt stop the feed, hold the tilt, switch off.";
  pen.words(foot, MARGIN_MM, heightMm - MARGIN_MM - 1, { sizeMm: 3.6, withinMm: right - MARGIN_MM });
}
