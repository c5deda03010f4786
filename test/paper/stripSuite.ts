/** What every mark strip must hold: turned into pictures, joined as on the lath, measured and read by another's decoder. */
import { expect, test } from 'vitest';
import type { Plan } from '../../server/core/plan/plan.ts';
import { codeBoxMm, laneMm, stripHighMm } from '../../server/paper/strip/flags.ts';
import { markCodeText, parseMarkCode } from '../../server/wire/message/markCode.ts';
import { decode } from './decode.ts';
import { DOTS_PER_MM, type JoinedStrip } from './joined.ts';
import { crop, darkMiddle, isEdgeWhite, type Picture, smeared, turned } from './picture.ts';
import { fontsOf, imagesIn, readPages } from './printed.ts';

export const RIGHT_WITHIN_MM = 0.2;
/** 6 m/min are 100 mm/s; the shutter is open for 1/250 s. */
export const SMEAR_MM = (6000 / 60) * (1 / 250);

/** Places of the marks along the strip, from the plan alone. */
export const placesOf = ({ marks, leads }: Plan): Map<number, number> => {
  const last = marks.at(-1)?.stockMm ?? 0;
  return new Map(marks.map(({ mark, stockMm }) => [mark, leads === 'heel' ? stockMm : last - stockMm]));
};

/** Where the line of a mark is found, at the foot of the strip where nothing else is. */
export function lineAt({ picture, strip, dotsAt }: JoinedStrip, alongMm: number): number {
  const x = dotsAt(alongMm);
  const foot = (stripHighMm(strip.build) - Math.min(1.5, strip.build.footMm * 0.7)) * DOTS_PER_MM;
  const reach = 1.3 * DOTS_PER_MM;
  return darkMiddle(picture, [x - reach, x + reach], [foot, picture.height - 1]) - dotsAt(0);
}

export function codeAt({ picture, strip, dotsAt }: JoinedStrip, mark: number): Picture {
  const flag = strip.flags.find((each) => each.mark === mark);
  if (flag === undefined || flag.lane === null) throw new Error(`mark ${mark} has no code`);
  const { build } = strip;
  const box = codeBoxMm(build) * DOTS_PER_MM;
  const top = (build.headMm + flag.lane * laneMm(build) + build.bandMm) * DOTS_PER_MM;
  const round = Math.round;
  return crop(picture, round(dotsAt(flag.alongMm) - box / 2), round(top), round(box), round(box));
}

/** The suite for the demo frame on one kind of paper; `joined` is made beforehand. */
export function stripHolds(demo: Plan, joined: JoinedStrip): void {
  const places = placesOf(demo);

  test('every mark line lies right within 0.2 mm over the whole strip, joins included', () => {
    const off = [...places.values()].map((mm) => lineAt(joined, mm) / DOTS_PER_MM - mm);
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(RIGHT_WITHIN_MM);
    expect(places.size).toBe(13);
  });

  test.each([
    ['as it is', (code: Picture) => code],
    ['smeared as by 6 m/min at 1/250 s', (code: Picture) => smeared(code, SMEAR_MM * DOTS_PER_MM)],
    ['turned by 15 degrees', (code: Picture) => turned(code, 15)],
    ['smeared and turned', (code: Picture) => turned(smeared(code, SMEAR_MM * DOTS_PER_MM), -15)],
  ])('every code decodes to its mark, %s', async (_how, seen) => {
    for (const mark of places.keys()) {
      const [text, ...more] = await decode(seen(codeAt(joined, mark)));
      expect([text, more]).toEqual([markCodeText(demo, mark), []]);
      expect(parseMarkCode(text ?? '')).toMatchObject({ ok: true, mark });
    }
  });

  test('each mark has its number and, next to it, the figure that is called', async () => {
    const text = (await readPages(joined.pdf)).map((page) => page.text).join(' ');
    for (const { mark, callDeg } of demo.marks) expect(` ${text} `).toContain(` ${mark} ${callDeg.toFixed(1)}° `);
  });

  test('nothing is printed where printers leave the paper white; all is drawn, its type embedded', async () => {
    for (const page of joined.pages) expect(isEdgeWhite(page, Math.floor(1.7 * DOTS_PER_MM))).toBe(true);
    expect(imagesIn(joined.pdf)).toBe(0);
    const fonts = fontsOf(joined.pdf);
    expect(fonts.length).toBeGreaterThan(0);
    for (const font of fonts) expect(font).toMatchObject({ name: expect.stringContaining('Barlow'), embedded: true });
  });

  test('the bars are 100 mm and 4 in long', () => {
    const isNarrow = joined.strip.highMm < 30;
    const top = isNarrow ? joined.strip.highMm - 5.5 : 37;
    [100, 4 * 25.4].forEach((long, index) => {
      const y = (top + 4 * index) * DOTS_PER_MM;
      const rows = [y - 1.1 * DOTS_PER_MM, y - 0.5 * DOTS_PER_MM] as const;
      const ends = [-143, -143 + long].map((mm) => {
        const x = joined.dotsAt(mm);
        return darkMiddle(joined.picture, [x - 8, x + 8], rows);
      });
      expect(Math.abs(((ends[1] ?? 0) - (ends[0] ?? 0)) / DOTS_PER_MM - long)).toBeLessThan(RIGHT_WITHIN_MM);
    });
  });
}
