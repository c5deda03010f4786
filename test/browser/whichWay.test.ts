/** Which way round on the start page, drawn for the job at hand, on a desk and on a phone; and the rip below it. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import { browserHouse } from '../kit/browserHouse.ts';

const demo = (name: string): string => readFileSync(new URL(`../../server/demo/${name}`, import.meta.url), 'utf8');

const shop = browserHouse();

const DESK = { width: 1280, height: 800 };
const PHONE = { width: 390, height: 844 };

/** The start page with the demo's frame planned for this side of the boat and this saw. */
async function planned(side: string, leans: string, more: object = {}): Promise<Page> {
  const context = await shop.browser.newContext({ viewport: DESK });
  onTestFinished(() => context.close());
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  await page.goto(shop.program.url);
  const job = JSON.parse(demo('job.json'));
  const files = {
    'job.json': JSON.stringify({
      ...job,
      title: 'Laid anew',
      frame: { ...job.frame, side },
      saw: { ...job.saw, leans },
      ...more,
    }),
    'pickup.csv': demo('pickup.csv'),
    'pattern.csv': demo('pattern.csv'),
  };
  await page
    .getByLabel('Job file and tables')
    .setInputFiles(
      Object.entries(files).map(([name, text]) => ({ name, mimeType: 'text/plain', buffer: Buffer.from(text) })),
    );
  await page.getByRole('heading', { name: 'Laid anew' }).waitFor();
  return page;
}

/** Boxes of the words and where they stand in their drawing; and pairs of words that touch. */
const lettering = (page: Page) =>
  page.locator('.which-way .drawing svg').evaluateAll((svgs) =>
    svgs.map((svg) => {
      const sheet = svg.getBoundingClientRect();
      const boxes = [...svg.querySelectorAll('text')].map((text) => ({
        words: text.textContent ?? '',
        box: text.getBoundingClientRect(),
      }));
      const touch = boxes.flatMap((a, i) =>
        boxes
          .slice(i + 1)
          .filter(
            (b) =>
              Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left) > 1 &&
              Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top) > 6,
          )
          .map((b) => `${a.words} / ${b.words}`),
      );
      const outside = boxes
        .filter(({ box }) => box.left < sheet.left - 1 || box.right > sheet.right + 1 || box.bottom > sheet.bottom + 1)
        .map(({ words }) => words);
      return { touch, outside };
    }),
  );

describe.each([
  ['starboard', 'right', 'head', 'left'],
  ['port', 'right', 'heel', 'left'],
  ['starboard', 'left', 'heel', 'right'],
  ['port', 'left', 'head', 'right'],
] as const)('a %s frame, top of the blade leaning %s', (side, leans, leads, fence) => {
  it('is drawn so, on a desk and on a phone: which end, which edge, where the fence, which half, where the planking', async () => {
    const page = await planned(side, leans);
    await page
      .getByRole('img', {
        name: `From above: the ${leads} end meets the blade first, the aft edge is up, the fence is on the sawyer's ${fence}`,
      })
      .waitFor();
    await page
      .getByRole('img', {
        name: `On the saw: aft edge up, the blade's top leans to the ${leans}, OUTER at the fence`,
      })
      .waitFor();
    await page
      .getByRole('img', {
        name: `In the frame: the outer wedge at the planking, on the ${leans}; aft edge up as before`,
      })
      .waitFor();
    expect(await page.locator('.which-way-sentence').textContent()).toContain(`The ${leads} leads`);
    for (const size of [DESK, PHONE]) {
      await page.setViewportSize(size);
      // The drawings are laid out anew for the width that they have.
      await expect.poll(() => lettering(page)).toEqual(Array.from({ length: 3 }, () => ({ touch: [], outside: [] })));
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
    }
  });
});

it('has no fence where a line is followed', async () => {
  const page = await planned('starboard', 'right', { rip: { feeds: 'along a line' } });
  const drawn = page.locator('.which-way .drawing');
  await page.getByRole('img', { name: /^From above: .*, the reference face is on the sawyer's left$/ }).waitFor();
  await page.getByRole('img', { name: /^On the saw: .*, OUTER at the reference face$/ }).waitFor();
  expect(await drawn.locator('.loft-fence').count()).toBe(0);
  for (const size of [DESK, PHONE]) {
    await page.setViewportSize(size);
    await expect.poll(() => lettering(page)).toEqual(Array.from({ length: 3 }, () => ({ touch: [], outside: [] })));
  }
});

it('tells the rip below it, with why nothing is tilted while the wood stands still, and a row for every mark', async () => {
  const page = await planned('starboard', 'right');
  const sheet = page.locator('section.sheet', { has: page.getByRole('heading', { name: 'The rip' }) });
  const words = ((await sheet.textContent()) ?? '').replace(/\s+/g, ' ');
  for (const each of [
    'Never tilt while the wood stands still in the cut',
    'Feed straight along the fence',
    'One cut cannot suit both wedges',
    'too short, it stays short',
    'The sharpest bend is',
    'So the blade can follow everywhere',
  ])
    expect(words).toContain(each);
  await sheet.locator('summary').click();
  expect(await sheet.locator('tbody tr').count()).toBe(13);
});
