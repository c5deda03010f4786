import { expect, test } from 'vitest';
import { aJob, picked } from '../../kit/aJob.ts';
import { demoPlan } from '../../kit/demoPlan.ts';
import { planned } from '../../kit/planned.ts';

/** A frame that is a circle of 1500 mm, bent over 1.2 m, the bevel 6 degrees all along. */
const circle = (laminationMm: number, turn: 'bilge' | 'reverse' = 'bilge') =>
  planned(
    aJob({
      frame: { mouldingMm: 90 },
      shape: {
        ...picked([0, 6], [600, 6], [1200, 6]),
        pattern: {
          file: 'pattern.csv',
          points: Array.from({ length: 25 }, (_, i) => {
            const [across, along] = [1500 * Math.sin((i * 50) / 1500), 1500 * (1 - Math.cos((i * 50) / 1500))];
            return turn === 'bilge' ? { yMm: across, zMm: along } : { yMm: along, zMm: across };
          }),
        },
      },
      stack: { laminationMm },
    }),
  );

test('laminations too thick for the turn are warned of, and said to break where they do', () => {
  // The outer flat lies 3 mm in (standing, so thin at the moulded edge), and 2 laminations of 32 fit in 90 less both wedges.
  const { bend, warnings } = circle(32);
  const { lamination } = bend ?? {};
  expect(Math.abs((lamination?.radiusMm ?? 0) - (1500 - 3 - 64))).toBeLessThan(12);
  expect(lamination).toMatchObject({ thicknessMm: 32, isTooSharp: true });
  expect(lamination?.radiusOverThickness).toBeCloseTo((lamination?.radiusMm ?? 0) / 32, 9);
  // White oak: limit 100, breaks cold at 58.6 (test/outside/bend); 45 is under both.
  const message = warnings.find(({ code }) => code === 'lamination-bend')?.message;
  expect(message).toMatch(
    /32 mm thick, have to lie in a radius of 14\d\d mm, 45 times .* is 100\. Bent cold they break: at 59/,
  );
  expect(message).toMatch(/Laminations of at most 14\.\d mm lie there/);
});

test('those at the limit are not, and what is allowed is just allowed', () => {
  const atMostMm = circle(32).bend?.lamination?.atMostMm ?? 0;
  expect(circle(atMostMm * 0.999).warnings.map(({ code }) => code)).not.toContain('lamination-bend');
  const over = circle(atMostMm * 1.03);
  expect(over.warnings.map(({ code }) => code)).toContain('lamination-bend');
  // Over the limit, but far from breaking.
  expect(over.warnings.find(({ code }) => code === 'lamination-bend')?.message).not.toContain('break');
});

test('in a reverse turn the outermost counts, which lies on the outer wedge’s flat', () => {
  const radiusMm = circle(3.2, 'reverse').bend?.lamination?.radiusMm ?? 0;
  expect(radiusMm).toBeGreaterThan(1495);
  expect(radiusMm).toBeLessThan(1512);
});

test('nothing is known without a pattern, and the demo’s bend as they are', async () => {
  expect(planned(aJob()).bend?.lamination).toBe(undefined);
  expect((await demoPlan()).bend?.lamination).toMatchObject({ isTooSharp: false });
});
