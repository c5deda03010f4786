/** What a plan says of the table of offsets, and of a frame picked up beside it. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { makePlan } from '../../server/core/makePlan.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { planAsText } from '../../server/text/planText.ts';
import { parseJob } from '../../server/wire/job/parseJob.ts';

const demoFile = (name: string): string => readFileSync(new URL(`../../server/demo/${name}`, import.meta.url), 'utf8');
const demo = JSON.parse(demoFile('offsets-job.json'));

function planOf(job: unknown, files: Readonly<Record<string, string>> = {}): Plan {
  const parsed = parseJob(job, { 'offsets.csv': demoFile('offsets.csv'), ...files });
  const made = parsed.ok ? makePlan(parsed.value) : parsed;
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}
const words = (plan: Plan): string => planAsText(plan).replace(/\s+/g, ' ');

describe('a plan from offsets, as text', () => {
  const plan = planOf(demo);
  const text = words(plan);

  test('says where it comes from, what is deducted, and what fairing moved', () => {
    expect(text).toContain(
      'From offsets.csv: moulded face at 1950 mm. 16 mm of planking is deducted from the offsets.',
    );
    const moved = plan.offsets?.fairing.moved ?? [];
    expect(text).toContain(`Fairing moved ${moved.length} points (it may move a point by 0.5 mm), most of all station`);
    expect(text).toContain('Moved most by fairing: station');
  });

  test('has the chord beside the tangent for every mark, and what the straight cut leaves hollow', () => {
    for (const { mark, bevelDeg, sawnDeg, hollowMm = 0 } of plan.marks) {
      const row = `${mark} +${bevelDeg.toFixed(2)} +${sawnDeg.toFixed(2)} ${hollowMm >= 0.005 ? '+' : ''}${Math.abs(hollowMm).toFixed(2)}`;
      expect(text).toContain(row);
    }
    expect(text).toContain('Called and sawn is the chord from face to face.');
    expect(text).toMatch(/the straight cut is [\d.]+ mm short of the planking at most, at girth/);
  });

  test('has beside every bevel what the table may make it wrong by, and the most of it in words', () => {
    for (const { mark, sawnDeg, errorDeg = Number.NaN, callDeg } of plan.marks) {
      expect(errorDeg).toBeGreaterThan(0.01);
      expect(errorDeg).toBeLessThan(0.2);
      expect(text).toMatch(
        new RegExp(`${mark} [\\d.]+ [\\d.]+ \\+${sawnDeg.toFixed(2)} ±${errorDeg.toFixed(2)} \\+${callDeg.toFixed(1)}`),
      );
    }
    expect(text).toMatch(/The table may make a bevel wrong by ±0\.\d\d° at most, at mark 1 /);
    expect(plan.warnings.map(({ code }) => code)).not.toContain('uncertain-bevel');
  });

  test('says why the wedges: how far a plain stack would run off', () => {
    expect(text).toMatch(
      /a plain stack laid on the planking from the heel would run off .* stand 8[78](\.\d)? mm aft of it at the head/,
    );
    const abaft = words(planOf({ ...demo, shape: { ...demo.shape, at: 5400 } }));
    expect(abaft).toMatch(/mm forward of it at the head/);
  });

  test('says a cant, and that nothing is deducted', () => {
    const canted = words(planOf({ ...demo, shape: { offsets: 'offsets.csv', at: 1950, cantDeg: -12 } }));
    expect(canted).toContain('canted 12° so that its outer end stands farther forward');
    expect(canted).toContain('nothing is deducted');
  });

  test('has no row of a fairing of picked-up bevels, and no section of offsets where there are none', () => {
    expect(text).not.toContain('between the rows and the fair curve');
    const picked = planOf(
      { ...demo, shape: { pickup: 'p.csv' } },
      { 'p.csv': 'girth,bevel\n0,4\n500,9\n1000,8\n1500,7\n' },
    );
    expect(words(picked)).not.toContain('From the offsets');
  });

  test('in inches lengths are in inches', () => {
    const inches = planAsText(
      planOf(
        {
          ...demo,
          units: 'in',
          notation: 'inches and fractions',
          frame: { siding: 2 },
          marks: { spacing: 6 },
          saw: {},
          stack: {},
          shape: { offsets: 'in.csv', at: 80 },
        },
        { 'in.csv': inInches(demoFile('offsets.csv')) },
      ),
    );
    expect(inches).toContain('From in.csv: moulded face at 80 in.');
    expect(inches).toMatch(/Fairing moved \d+ points \(it may move a point by (0\.\d+|1\/32) in\)/);
  });
});

/** The demo's table in inches and sixteenths. */
function inInches(table: string): string {
  return table
    .split('\n')
    .map((line) => {
      const [station, ...cells] = line.split(',');
      if (cells.length !== 3 || cells[0] === 'x') return line;
      const [x, y, z] = cells.map((cell) => (Math.round((Number(cell) / 25.4) * 16) / 16).toString());
      return [station, x, y, z].join(',');
    })
    .join('\n');
}

describe('a frame picked up beside the offsets, as text', () => {
  test('says how far the two stand apart, row by row', () => {
    const { shape } = demo;
    const ofOffsets = planOf(demo);
    const rows = ofOffsets.marks.map(({ girthMm, bevelDeg }) => `${girthMm.toFixed(0)},${(bevelDeg + 0.8).toFixed(1)}`);
    const files = { 'pickup.csv': `girth,bevel\n${rows.join('\n')}\n` };
    const plan = planOf({ ...demo, shape: { ...shape, pickup: 'pickup.csv' } }, files);
    const text = words(plan);
    expect(text).toContain("Beside the offsets' frame at 1950 mm: 0.");
    expect(text).toContain('The frame at 1800 mm is');
    expect(text).toContain('The frame at 2250 mm is');
    expect(text).toContain('The boat as built governs.');
    expect(text).toMatch(/girth picked up offsets apart 0\.0 \+3\.8 \+3\.0 \+0\.8/);
  });
});
