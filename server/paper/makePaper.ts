/** A paper from a plan (and its run): the one place where papers are named to their drawings. */
import type { Plan } from '../core/plan/plan.ts';
import type { PaperName, PaperTask } from '../wire/request/papers.ts';
import type { Page } from './draw/page.ts';
import { openSheets, type Sheets } from './draw/sheets.ts';
import { toPdf } from './draw/toPdf.ts';
import { drawCards, drawCautions } from './sheets/cards.ts';
import { drawCurveSheet } from './sheets/curve.ts';
import { drawRecord } from './sheets/recordSheet.ts';
import { drawSchedule } from './sheets/schedule/schedule.ts';
import { drawSetUp } from './sheets/setUp.ts';
import { drawWhichWay } from './sheets/whichWaySheet.ts';
import { drawBevelBoard } from './sheets/wood/bevelBoard.ts';
import { drawSections } from './sheets/wood/sections.ts';
import { drawTestCuts } from './sheets/wood/testCuts.ts';
import { layStrip } from './strip/stripPages.ts';

/** The pages before they are a PDF. */
export function paperPages(task: PaperTask): readonly Page[] {
  const { plan } = task;
  if (task.paper === 'strip') return layStrip(plan, task.size).pages;
  const sheets = openSheets(task.size, NAMES[task.paper], plan);
  if (task.paper === 'record') drawRecord(sheets, plan, task.record);
  else DRAWINGS[task.paper](sheets, plan);
  return sheets.pages();
}

/** Settles with the bytes of the PDF: the same task gives the same bytes. */
export const makePaper = (task: PaperTask): Promise<Uint8Array> =>
  toPdf(paperPages(task), `${task.plan.title}: ${NAMES[task.paper].toLowerCase()}`);

const NAMES: Readonly<Record<PaperTask['paper'], string>> = {
  strip: 'Mark strip',
  sheet: 'Schedule',
  'which-way': 'Which way round',
  board: 'Bevel board',
  'test-cuts': 'Test cuts',
  record: 'Record of a run',
};

const DRAWINGS: Readonly<Record<Exclude<PaperName, 'strip'>, (sheets: Sheets, plan: Plan) => void>> = {
  sheet(sheets, plan) {
    const tellWhere = drawSetUp(sheets, plan);
    drawSchedule(sheets, plan);
    drawCautions(sheets, plan);
    drawCards(sheets, plan);
    sheets.turnPage();
    drawWhichWay(sheets, plan);
    tellWhere(drawCurveSheet(sheets, plan));
    drawSections(sheets, plan);
  },
  'which-way': drawWhichWay,
  board: drawBevelBoard,
  'test-cuts': drawTestCuts,
};
