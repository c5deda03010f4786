/** Every figure on paper is the plan's: read back from the text of the PDF, and measured where it is drawn true. */
import { describe, expect, test } from 'vitest';
import { lengthText } from '../../server/core/figures/lengths.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { callText } from '../../server/core/words/callText.ts';
import { numberWords } from '../../server/core/words/numberWords.ts';
import { phrasesFor } from '../../server/core/words/phrases.ts';
import { makePaper, paperPages } from '../../server/paper/makePaper.ts';
import { figureOf } from '../../server/paper/paperFigures.ts';
import type { PaperName } from '../../server/wire/request/papers.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { darkMiddle, darkMiddleDown } from './picture.ts';
import { linesOf, pictures, type ReadPage, readPages } from './printed.ts';

const demo = await demoPlan();
const print = (paper: Exclude<PaperName, 'strip'>, plan: Plan = demo): Promise<Uint8Array> =>
  makePaper({ plan, paper, size: plan.units === 'in' ? 'letter' : 'a4' });
/** Papers of the demo frame, each made once. */
const made = new Map<string, Promise<readonly ReadPage[]>>();
const read = (paper: Exclude<PaperName, 'strip'>, plan: Plan = demo): Promise<readonly ReadPage[]> => {
  const before = plan === demo ? made.get(paper) : undefined;
  const pages = before ?? print(paper, plan).then(readPages);
  if (plan === demo) made.set(paper, pages);
  return pages;
};
const allText = (pages: readonly ReadPage[]): string => ` ${pages.map(({ text }) => text).join(' ')} `;
const oneDecimal = (deg: number): string => `${deg.toFixed(1).replace('-', '−')}°`;

/** What the schedule must say, reckoned here from the plan's marks and nothing else. */
function rowsWanted(plan: Plan, length: (mm: number) => string): readonly string[] {
  const order = plan.leads === 'head' ? plan.marks.toReversed() : plan.marks;
  const start = order[0]?.stockMm ?? 0;
  return order.map((mark, index) => {
    const next = order[index + 1];
    const at = `${mark.mark} ${length(Math.abs(mark.stockMm - start))} ${oneDecimal(mark.callDeg)}`;
    // What is said at the last mark takes two lines; see below.
    if (next === undefined) return at;
    return `${at} ${callText({ mark: next.mark, deg: next.callDeg }, plan.voice)}`;
  });
}

describe('the schedule', () => {
  test('has a row a mark: its place, its call, and the words for the next one', async () => {
    const lines = (await read('sheet')).slice(1, 2).flatMap(linesOf);
    for (const row of rowsWanted(demo, (mm) => mm.toFixed(1))) expect(lines.join('\n')).toContain(row);
    for (const part of phrasesFor(demo.voice).runDone.split(/(?<=,) /)) expect(lines.join('\n')).toContain(part);
    const first = demo.marks.at(-1)?.callDeg ?? 0;
    expect(lines.join('\n')).toContain(
      `first before the wood ${numberWords(first, demo.voice.numbers, demo.voice.language)} ${oneDecimal(first)}`,
    );
    for (const { callDeg, mark } of demo.marks.slice(0, -1))
      expect(lines.some((line) => line.startsWith(`${mark + 1} `) && line.endsWith(oneDecimal(callDeg)))).toBe(true);
  });

  test.each(['decimal inches', 'inches and fractions', 'feet-inches-eighths'] as const)(
    'in %s where the job is',
    async (notation) => {
      const plan: Plan = { ...demo, units: 'in', notation };
      const lines = (await read('sheet', plan)).slice(1, 2).flatMap(linesOf);
      for (const row of rowsWanted(plan, (mm) => figureOf(mm, notation))) expect(lines.join('\n')).toContain(row);
    },
  );

  test('says the calls in the language of the voice', async () => {
    const plan: Plan = { ...demo, voice: { ...demo.voice, language: 'de' } };
    const pages = await read('sheet', plan);
    const lines = pages.slice(1, 2).flatMap(linesOf).join('\n');
    for (const row of rowsWanted(plan, (mm) => mm.toFixed(1))) expect(lines).toContain(row);
    expect(lines).toContain('Say now (Deutsch)');
    expect(lines).toMatch(/elf Komma|eins eins Komma/i);
    expect(allText(pages)).toContain(phrasesFor(plan.voice).signalLost);
  });

  test('cuts no call short, however long its words are', () => {
    const plan: Plan = { ...demo, voice: { language: 'de', form: 'mark and angle', numbers: 'natural' } };
    const words = paperPages({ plan, paper: 'sheet', size: 'a4' })
      .flatMap(({ items }) => items.flatMap((item) => (item.kind === 'text' ? [item.text] : [])))
      .join(' ');
    for (const { mark, callDeg } of plan.marks) expect(words).toContain(callText({ mark, deg: callDeg }, plan.voice));
  });

  test('tells the limits, the cautions, and what to do when the signal is lost', async () => {
    const text = allText(await read('sheet'));
    const { twist, pace, fairing, saw } = demo;
    expect(text).toContain(
      `at most ${twist.maxDegPerM.toFixed(1)}° a metre; the blade follows ${twist.limitDegPerM.toFixed(1)}° a metre`,
    );
    expect(text).toContain(`at most ${Math.floor(pace.limitMPerMin * 100) / 100} m/min`);
    expect(text).toContain(`${saw.tiltDeg[0]}° to ${saw.tiltDeg[1]}°`.replace('-', '−'));
    expect(text).toContain(`${fairing.rmsDeg.toFixed(2)}° between`);
    for (const caution of demo.cautions) expect(text).toContain(caution);
    expect(text).toContain(
      'Stop feed. Hold the tilt. Switch off. Wait until the blade stands. Never back out of a running blade.',
    );
    for (const who of ['Sawyer', 'Tilt hand', 'Caller, by voice', 'Tailer']) expect(text).toContain(` ${who} `);
    for (const { limitMPerMin } of pace.intervals)
      expect(text).toContain(` ${Math.floor(limitMPerMin * 100 + 1e-6) / 100} `);
  });

  test('draws sections with the edges of both wedges', async () => {
    const pages = await read('sheet');
    const page = pages.at(-1);
    const shown = demo.marks.filter(({ mark }) => page?.text.includes(`Mark ${mark} call`));
    expect(shown.length).toBe(4);
    for (const { outerEdgesMm, innerEdgesMm, callDeg, mark } of shown) {
      expect(page?.text).toContain(`Mark ${mark} call ${oneDecimal(callDeg)}`);
      for (const edge of [...outerEdgesMm, ...innerEdgesMm])
        expect(` ${page?.text} `).toContain(` ${edge.toFixed(1)} `);
    }
  });
});

test('sections drawn full size are so within 0.2 mm', async () => {
  const pdf = await print('sheet');
  const pages = await readPages(pdf);
  const page = pages.at(-1);
  const picture = (await pictures(pdf)).at(-1);
  if (page === undefined || picture === undefined) throw new Error('no page');
  expect(page.text).toContain('Sections, full size');
  const dots = 300 / 25.4;
  const { sidingMm } = demo.frame;
  for (const { mark, outerEdgesMm } of demo.marks) {
    const name = page.words.find(({ text }, at) => text === `${mark}` && page.words[at - 1]?.text === 'Mark');
    if (name === undefined) continue;
    // The section stands under its name, which ends 2 mm left of its middle.
    const middle = name.rightMm + 2;
    const foot = name.bottomMm + 12 + Math.max(...outerEdgesMm) + 20;
    const side = (mm: number): number =>
      darkMiddle(picture, [(middle + mm - 1) * dots, (middle + mm + 1) * dots], [foot * dots, foot * dots + 3]) / dots;
    expect(Math.abs(side(sidingMm / 2) - side(-sidingMm / 2) - sidingMm)).toBeLessThan(0.2);
  }
});

test('the strip says how far it may lie off', async () => {
  const pages = await readPages(await makePaper({ plan: demo, paper: 'strip', size: 'a4' }));
  const text = pages.at(-1)?.text ?? '';
  const { twist, saw } = demo;
  const degPerMm = twist.maxDegPerM / 1000;
  expect(text).toContain(`${twist.maxDegPerM.toFixed(1)}° a metre`);
  expect(text).toContain(`makes the bevel up to ${degPerMm.toFixed(3)}° wrong`);
  expect(text).toContain(`at most ${Math.floor((saw.readoutDeg / 2 / degPerMm) * 10) / 10} mm off`);
  const inches = await readPages(
    await makePaper({
      plan: { ...demo, units: 'in', notation: 'inches and fractions' },
      paper: 'strip',
      size: 'letter',
    }),
  );
  // Half a step of the readout over degrees an inch, rounded down to the thirty-second.
  const thirtySeconds = Math.floor((saw.readoutDeg / 2 / (degPerMm * 25.4)) * 32);
  expect(inches.at(-1)?.text).toContain(
    `at most ${lengthText((thirtySeconds * 25.4) / 32, 'inches and fractions')} off`,
  );
  expect(inches.at(-1)?.text).toContain(
    `lies 1/16 in off along the stock makes the bevel up to ${((degPerMm * 25.4) / 16).toFixed(3)}° wrong`,
  );
  expect(text).toContain(
    `Mark 13 to mark 1 is ${Number((demo.marks.at(-1)?.stockMm ?? 0).toFixed(1))} mm by a steel tape`,
  );
});

test('the bevel board has each sawn bevel in figures and true to within a twentieth of a degree', async () => {
  const pdf = await print('board');
  const [page] = await readPages(pdf);
  const [picture] = await pictures(pdf);
  if (page === undefined || picture === undefined) throw new Error('no page');
  const dots = 300 / 25.4;
  // The board's edges by its own strong and thin line: 12 mm of margin, 22 of numbers, 110 wide.
  const [x0, x1] = [36, 142];
  const found = demo.marks.map(({ mark, sawnDeg }) => {
    const figure = `${sawnDeg > 0 ? '+' : ''}${sawnDeg.toFixed(2).replace('-', '−')}°`;
    const word = page.words.find(({ text }) => text === figure);
    const number = page.words.find(({ text, leftMm }) => text === `${mark}` && leftMm < 34);
    if (word === undefined || number === undefined) throw new Error(`mark ${mark}: no ${figure}`);
    const falls = 110 * Math.tan((sawnDeg * Math.PI) / 180);
    const base = (number.topMm + number.bottomMm) / 2;
    const at = (x: number): number => {
      const near = base + (falls * (x - 34)) / 110;
      return darkMiddleDown(picture, [(near - 2.6) * dots, (near + 2.6) * dots], [x * dots, x * dots + 3]) / dots;
    };
    return (Math.atan((at(x1) - at(x0)) / (x1 - x0)) * 180) / Math.PI - sawnDeg;
  });
  expect(Math.max(...found.map(Math.abs))).toBeLessThan(0.05);
});

test('the test-cut sheet has the figures that the readout shows, and what is in the job now', async () => {
  const lines = (await read('test-cuts')).flatMap(linesOf).join('\n');
  // The demo's table says 10.1 for 10, and so 5.05 for 5: half way between its pairs.
  for (const row of ['0.0° either 0.00 0.00°', '5.0° both 8.75 5.05°', '10.0° both 17.63 10.10°'])
    expect(lines).toContain(row);
});

test('the which-way sheet says which end, which edge and which half', async () => {
  const text = allText(await read('which-way'));
  expect(text).toContain('HEAD FIRST, AFT EDGE UP');
  expect(text).toContain(`mark ${demo.marks.length} comes first`);
  expect(text).toContain('The half at the fence becomes the outer wedge, thicker at its aft edge.');
  const { rip } = demo;
  if (rip === undefined) throw new Error('the demo has no rip');
  const byLine = allText(await read('which-way', { ...demo, rip: { ...rip, feeds: 'along a line' } }));
  expect(byLine).toContain('reference face on this side');
  const unsure = allText(await read('which-way', { ...demo, leadsIsSure: false }));
  expect(unsure).toContain('Not confirmed');
});

test.each([
  [0, '0'],
  [25.4, '1'],
  [49.375 * 25.4, '49 3/8'],
  [40.6875 * 25.4, '40 11/16'],
  [-3.175, '−1/8'],
])('%d mm in fractions of an inch', (mm, wanted) => expect(figureOf(mm, 'inches and fractions')).toBe(wanted));
