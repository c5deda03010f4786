/** What the crew needs before and beside the calls: got out, set up, forbidden, and the cards; read back from the PDF. */
import { describe, expect, test } from 'vitest';
import { planWithCures } from '../../server/core/cures/tryCures.ts';
import { lengthText } from '../../server/core/figures/lengths.ts';
import { unitsOf } from '../../server/core/figures/notation.ts';
import { makePlan } from '../../server/core/makePlan.ts';
import { forbiddingWarnings, inSpiteOf } from '../../server/core/plan/forbids.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { withSquare } from '../../server/core/plan/squareAtZero.ts';
import { squareSentence } from '../../server/core/text/sawCheckText.ts';
import { loadDemo } from '../../server/demo/loadDemo.ts';
import { makePaper, paperPages } from '../../server/paper/makePaper.ts';
import { atMarks } from '../../server/paper/sheets/blockingWarnings.ts';
import { voiceFeedMPerMin } from '../../server/paper/sheets/schedule/voiceFeed.ts';
import { rowsHere } from '../../server/paper/sheets/table.ts';
import { beyondMarks, builtDepthMm } from '../../server/paper/sheets/wood/onStock.ts';
import { parseJob } from '../../server/wire/job/parseJob.ts';
import { FORBIDDEN } from '../kit/forbiddenJobs.ts';
import { linesOf, type ReadPage, readPages } from './printed.ts';

type Changes = Readonly<Record<string, object>>;
/** The demo with other words in parts of its job. */
async function demoWith(changes: Changes = {}): Promise<Plan> {
  const { job, files } = await loadDemo();
  const asked = job as unknown as Readonly<Record<string, object>>;
  const merged = Object.entries(changes).map(([part, more]) => [part, { ...asked[part], ...more }]);
  const parsed = parseJob({ ...asked, ...Object.fromEntries(merged) }, files);
  const made = parsed.ok ? makePlan(parsed.value) : parsed;
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}
const demo = await demoWith();
const read = async (plan: Plan): Promise<readonly ReadPage[]> =>
  readPages(await makePaper({ plan, paper: 'sheet', size: plan.units === 'in' ? 'letter' : 'a4' }));
const shown = (deg: number): string => `${deg.toFixed(1).replace('-', '−')}°`;
/** A square of 5 mm. */
const isTick = (points: readonly (readonly [number, number])[]): boolean => {
  const [a, b, c] = points;
  return (
    points.length === 4 &&
    a !== undefined &&
    b !== undefined &&
    c !== undefined &&
    Math.abs(b[0] - a[0] - 5) < 1e-9 &&
    Math.abs(c[1] - b[1] - 5) < 1e-9
  );
};
const cardOf = (pages: readonly ReadPage[], who: string, next: string): string => {
  const text = pages.flatMap(linesOf).join(' ');
  const from = text.indexOf(`${who} frame`);
  expect(from).toBeGreaterThan(0);
  return text.slice(from, text.indexOf(next, from + 1));
};

describe('sheet 1', () => {
  test.each(['mm', 'inches and fractions', 'feet-inches-eighths'] as const)(
    'has what is got out and how the saw is set up, in %s',
    async (notation) => {
      const plan: Plan = { ...demo, units: unitsOf(notation), notation };
      const [page] = await read(plan);
      const length = (mm: number): string => lengthText(mm, notation).replace(/^-/, '−');
      // What is needed is never told as less.
      const need = (mm: number): string => {
        const step = notation === 'mm' ? 0.1 : 25.4 / 32;
        return length(Math.ceil(mm / step - 1e-6) * step);
      };
      const { rip, stock, frame } = plan;
      if (rip === undefined || page === undefined) throw new Error('no rip');
      const { outer, inner } = rip.ends;
      for (const words of [
        // Rough with the cleaning up on, dressed the siding: all lines are reckoned on that height.
        `${[rip.roughThicknessMm, stock.widthMm, stock.lengthMm].map(need).join(' x ')} (thickness x width x length)`,
        `${need(stock.thicknessMm)} x ${length(frame.sidingMm)} (thickness x siding), ${length(rip.cleaningUpMm)} off each face and edge`,
        `Mark 13 comes first and lies ${length(rip.endWasteMm)} from the head end; mark 1 lies ${length(rip.endWasteMm)} from the heel end.`,
        `outer wedge ${length(outer.lengthMm)} (${length(outer.heelMm)} to ${length(outer.headMm)} from mark 1)`,
        `inner wedge ${length(inner.lengthMm)} (${length(inner.heelMm)} to ${length(inner.headMm)} from mark 1)`,
        `the middle of the kerf keeps ${length(rip.lineMm)} from the face at the fence`,
        squareSentence(plan.sawTruth ?? { squareShowsDeg: Number.NaN }),
        `moulding ${length(frame.mouldingMm)}`,
      ])
        expect(page.text).toContain(words);
      expect(page.text).not.toContain(`${length(stock.thicknessMm)} x ${length(stock.widthMm)}`);
    },
  );

  test('the fence is set where the kerf stays: at the height of the tilt axis', async () => {
    const plan = await demoWith({ saw: { pivotHeight: 40 } });
    const pages = await read(plan);
    const keeps = `keeps ${Number(plan.rip?.lineMm.toFixed(1))} mm from the face at the fence. At every tilt it does so 40 mm above the table.`;
    expect(pages[0]?.text).toContain(keeps);
    expect(cardOf(pages, 'Sawyer', 'Tilt hand frame')).toContain(keeps);
  });

  test('depth as built: wedges and whole laminations, never over the moulding', async () => {
    const [least, most] = builtDepthMm(demo);
    // Derived: stock less the kerf across it, at the steepest and at square, and the stack; what the cut leaves on the inner wedge.
    const across = (deg: number): number =>
      demo.stock.thicknessMm - demo.saw.kerfMm / Math.cos((deg * Math.PI) / 180) + demo.stack.plies * 3.2;
    const left = Math.max(...demo.marks.map(({ innerLeftMm = 0 }) => Math.abs(innerLeftMm)));
    expect(least).toBeGreaterThan(across(11.6) - left);
    expect(most).toBeLessThan(across(0) + left);
    expect(most).toBeLessThan(demo.frame.mouldingMm);
    const [page] = await read(demo);
    expect(page?.text).toContain(
      `${Number(least.toFixed(1))} mm to ${Number(most.toFixed(1))} mm deep as built, of 75 mm moulding`,
    );
  });

  test('what lies beyond the marks is all of the rest of the stock', () => {
    const beyond = beyondMarks(demo);
    const span = (demo.marks.at(-1)?.stockMm ?? 0) - (demo.marks[0]?.stockMm ?? 0);
    expect((beyond?.heelMm ?? 0) + span + (beyond?.headMm ?? 0)).toBeCloseTo(demo.stock.lengthMm, 9);
    expect(beyond?.headMm).toBeCloseTo(demo.rip?.endWasteMm ?? 0, 6);
  });

  test('by voice the caller’s own reaction counts, and a crew that is too fast for that is told', async () => {
    const slowest = Math.min(
      ...demo.pace.intervals.map(
        ({ lengthMm, wordsS, wheelS }) => (lengthMm * 0.06) / (wordsS + wheelS + 2 * demo.crew.reactionS),
      ),
    );
    expect(voiceFeedMPerMin(demo)).toBeCloseTo(slowest, 9);
    expect(slowest).toBeLessThan(demo.crew.feedMPerMin);
    const figure = `${Math.floor(slowest * 100) / 100} m/min`;
    const pages = await read(demo);
    expect(pages[0]?.text).toContain(`At most ${figure}: slower than the crew's own 3 m/min.`);
    expect(pages[0]?.text).toContain('assumed to be 0.35 s, as for the tilt hand');
    expect(cardOf(pages, 'Sawyer', 'Tilt hand frame')).toContain(`by voice ${figure}`);
    const slow = await read({ ...demo, crew: { ...demo.crew, feedMPerMin: 2 } });
    expect(slow[0]?.text).not.toContain("slower than the crew's own");
  });

  test('what forbids the cut stands before everything, with the sheet where more is', async () => {
    // The demo's greatest bevel is 11.5.
    const plan = await demoWith({ saw: { tilt: [-5, 5] } });
    expect(plan.warnings.map(({ code }) => code)).toContain('tilt-out-of-reach');
    const pages = await read(plan);
    const first = pages[0]?.text ?? '';
    expect(first).toMatch(/Do not saw before this is settled The saw does not reach the bevel, worst at mark 6/);
    expect(first.indexOf('does not reach')).toBeLessThan(first.indexOf('Get out and set up'));
    expect(pages[1]?.text).toContain('Do not saw yet. First settle what sheet 1 says.');
    const sheet = Number(/In full, and what helps: from sheet (\d+) on/.exec(first)?.[1]);
    const message = plan.warnings.find(({ code }) => code === 'tilt-out-of-reach')?.message ?? 'none';
    expect(pages[sheet - 1]?.text).toContain(message);
    expect(pages[sheet - 1]?.text).toContain('Do not saw, mark 6');
    expect((await read(demo))[0]?.text).not.toContain('Do not saw');
  });

  test('what cures it stands beneath it, and a run that was made in spite of it says why', async () => {
    const { job, files } = FORBIDDEN.twist;
    const parsed = parseJob(job, files);
    const made = parsed.ok ? planWithCures(parsed.value) : parsed;
    if (!made.ok) throw new Error('no plan');
    const first = (await read(made.value))[0]?.text ?? '';
    const cures = made.value.warnings.flatMap((warning) => warning.cures ?? []);
    expect(cures.length).toBeGreaterThan(0);
    for (const { text } of cures) expect(first).toContain(text);
    expect(first).not.toContain('in spite');
    const words = 'Stock is <b>scrap</b>, for practice.';
    const despite = inSpiteOf(made.value, words, forbiddingWarnings(made.value));
    expect((await read(despite))[0]?.text).toContain(`The run was made all the same. The reason given: “${words}”`);
  });
});

describe('the cards', () => {
  test('along a line: the line that is seen, at each mark, and the height at which the straight one holds', async () => {
    const plan = await demoWith({ rip: { feeds: 'along a line' } });
    const pages = await read(plan);
    const card = cardOf(pages, 'Sawyer', 'Tilt hand frame');
    const at = (mark: number): string =>
      `${lengthText(plan.marks[mark - 1]?.lineTopMm ?? Number.NaN, 'mm')} at mark ${mark}`;
    for (const mark of [13, 6, 1]) expect(card).toContain(at(mark));
    expect(card).toContain(
      `straight, ${lengthText(plan.rip?.lineMm ?? Number.NaN, 'mm')} from the reference face, only at ${lengthText(plan.rip?.straightAtMm ?? Number.NaN, 'mm')} above the table`,
    );
    // There is no fence: the half is named by the face.
    expect(cardOf(pages, 'Tailer', 'advises only')).toContain('The half at the reference face is the outer wedge.');
    const lines = pages.find(({ text }) => text.includes('The lines to draw'));
    if (lines === undefined) throw new Error('no table');
    const start = plan.marks.at(-1)?.stockMm ?? 0;
    for (const { mark, stockMm, lineTopMm, lineBottomMm } of plan.marks)
      expect(linesOf(lines)).toContain(
        `${mark} ${Math.abs(stockMm - start).toFixed(1)} ${lineTopMm.toFixed(1)} ${lineBottomMm.toFixed(1)}`,
      );
  });

  test('the tilt hand squares the blade as the plan says it, and comes to the first bevel by figures', async () => {
    const plan = await demoWith({ frame: { side: 'port' } });
    const card = cardOf(await read(demo), 'Tilt hand', 'Caller, by voice');
    expect(card).toContain(squareSentence(demo.sawTruth ?? { squareShowsDeg: Number.NaN }));
    expect(card).toContain(`Come to the first bevel from ${shown(0)} to ${shown(1.5)}:`);
    expect(card).not.toMatch(/test block|less tilt|more tilt/);
    expect(plan.sawTruth?.firstBevel?.callDeg).toBe(
      plan.leads === 'head' ? plan.marks.at(-1)?.callDeg : plan.marks[0]?.callDeg,
    );
  });

  test('the caller is told what "again" and a stop ask of him, in the words of the run', async () => {
    const card = cardOf(await read(demo), 'Caller, by voice', 'Tailer frame');
    expect(card).toContain('"Again": say the same bevel once more, at once.');
    expect(card).toContain('"stop feed, hold tilt"');
    expect(card).toContain('repeat the bevel that you called last. Then go on with the next mark');
  });

  test('after a stop the readout lies between the two figures of the row', async () => {
    const text = (await read(demo)).map((page) => page.text).join(' ');
    expect(text).toContain('Until the next mark the readout must lie between "Readout" and "Turn to" of its row');
    expect(text).not.toContain('The readout must show the figure of that row');
  });
});

describe('a schedule over several sheets', () => {
  test('says "lay the sheets side by side before the cut" wherever it goes on, and nowhere else', async () => {
    const plan = await demoWith({ marks: { spacing: 30 } });
    const pages = paperPages({ plan, paper: 'sheet', size: 'a4' }).map(({ items }) =>
      items.flatMap((item) => (item.kind === 'text' ? [item.text] : [])),
    );
    const of = pages.flatMap((texts, at) => (texts.includes('Turn to') ? [at] : []));
    expect(of.length).toBeGreaterThan(2);
    const saying = pages.flatMap((texts, at) =>
      texts.includes(`It continues on sheet ${at + 2}: lay the sheets side by side before the cut.`) ? [at] : [],
    );
    expect(saying).toEqual(of.slice(0, -1));
  });

  test('has a box to tick in every row, and no figure in it', () => {
    const boxes = (plan: Plan): number =>
      paperPages({ plan, paper: 'sheet', size: 'a4' })
        .flatMap(({ items }) => items)
        .filter((item) => item.kind === 'path' && item.fill === undefined && isTick(item.lines[0] ?? [])).length;
    expect(boxes(demo)).toBe(demo.marks.length + 1);
  });

  test('asks for the reading at square with initials, and says how the figures are shifted by hand', async () => {
    const text = (await read(demo))[1]?.text ?? '';
    expect(text).toContain('Blade square: the readout must show 0.0°. It shows initials');
    // As the plan that is made anew for that reading calls it.
    const firstOf = (plan: Plan): number =>
      (plan.leads === 'head' ? plan.marks.at(-1) : plan.marks[0])?.callDeg ?? Number.NaN;
    const seen = [-1, -0.5, 0.5, 1];
    expect(text).toContain(`Where it shows ${seen.map(shown).join(' ')}`);
    expect(text).toContain(
      `${shown(firstOf(demo))} becomes ${seen.map((deg) => shown(firstOf(withSquare(demo, deg)))).join(' ')}`,
    );
    expect(cardOf(await read(demo), 'Caller, by voice', 'Tailer frame')).toContain('shift every figure');
  });

  test('the chart of the feed names its limit, where it is and what makes it', async () => {
    const text = (await read(demo)).map((page) => page.text).join(' ');
    const slowest = demo.pace.intervals.reduce((a, b) => (b.limitMPerMin < a.limitMPerMin ? b : a));
    const [from, to] = [slowest.fromMark, slowest.toMark].sort((a, b) => a - b);
    const limit = (Math.floor(demo.pace.limitMPerMin * 100) / 100).toFixed(2);
    expect(text).toContain(`(m/min) The limit is ${limit}, between marks ${from} and ${to}, because of the `);
  });

  test('leaves no row alone at the foot of a sheet or on the last one', () => {
    const rows = (count: number): readonly number[] => Array.from({ length: count }, () => 10);
    expect(rowsHere(rows(10), 100, 9, false)).toBe(10);
    expect(rowsHere(rows(11), 100, 9, false)).toBe(9);
    expect(rowsHere(rows(10), 99, 9, false)).toBe(8);
    expect(rowsHere(rows(10), 25, 9, false)).toBe(0);
    expect(rowsHere(rows(10), 25, 9, true)).toBe(1);
    expect(rowsHere(rows(2), 15, 9, true)).toBe(1);
  });
});

test.each([
  [[], ''],
  [[4], ' at mark 4'],
  [[9, 3, 5, 6, 7], ' at marks 3, 5 to 7, 9'],
  [[1, 2], ' at marks 1, 2'],
])('marks %j', (marks, words) => expect(atMarks(marks)).toBe(words));
