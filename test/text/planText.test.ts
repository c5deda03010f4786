import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { makePlan } from '../../server/core/makePlan.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { planAsText } from '../../server/text/planText.ts';
import { parseJob } from '../../server/wire/job/parseJob.ts';

const demoFile = (name: string): string => readFileSync(new URL(`../../server/demo/${name}`, import.meta.url), 'utf8');
const demo = JSON.parse(demoFile('job.json'));
const demoFiles = { 'pickup.csv': demoFile('pickup.csv'), 'pattern.csv': demoFile('pattern.csv') };

function planOf(job: unknown, files: Readonly<Record<string, string>> = demoFiles): Plan {
  const parsed = parseJob(job, files);
  const made = parsed.ok ? makePlan(parsed.value) : parsed;
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}

describe('a plan as text', () => {
  const plan = planOf(demo);
  const text = planAsText(plan);
  const row = (of: string, mark: number): readonly string[] =>
    of
      .split('\n')
      .find((line) => new RegExp(`^ *${mark} `).test(line))
      ?.trim()
      .split(/\s+/) ?? [];

  it('has a row for each mark, with its place on the stock and its call', () => {
    for (const mark of plan.marks) {
      const [number, girth, stock, , call, forward, aft] = row(text, mark.mark);
      expect(Number(number)).toBe(mark.mark);
      expect(girth).toBe(mark.girthMm.toFixed(1));
      expect(stock).toBe(mark.stockMm.toFixed(1));
      expect(Number(call)).toBe(mark.callDeg);
      expect([forward, aft]).toEqual(mark.outerEdgesMm.map((mm) => mm.toFixed(1)));
    }
  });

  it('says the title, which end leads, the pace and every caution', () => {
    const words = text.replace(/\s+/g, ' ');
    expect(text.startsWith(plan.title)).toBe(true);
    expect(words).toContain(`Leads the ${plan.leads}, so mark ${plan.leads === 'heel' ? 1 : plan.marks.length} comes`);
    expect(words).toContain('m/min');
    for (const caution of plan.cautions) expect(words).toContain(caution);
    expect(words).not.toContain('rests on assumed');
  });

  it('in inches tells what is needed rounded up and what is off as it is', () => {
    const inches = planAsText({ ...plan, units: 'in', notation: 'inches and fractions' }).replace(/\s+/g, ' ');
    expect(inches).toMatch(/The inner is up to [\d.]+° off \(0\.0\d+ in across the siding/);
    expect(inches).not.toContain('(0 in');
    const up = (mm: number): number => Math.ceil((mm / 25.4) * 32 - 1e-6) / 32;
    const [, told = ''] = /dressed (\S+(?: \d+\/\d+)?) in thick/.exec(inches) ?? [];
    const size = told.split(' ').map((part) => part.split('/').map(Number));
    expect(size.reduce((sum, [over = 0, under = 1]) => sum + over / under, 0)).toBe(up(plan.stock.thicknessMm));
  });

  it('tells no radius to a tenth of a millimetre', () => {
    expect(text).not.toMatch(/radius (of|is) \d+\.\d/);
    expect(text).not.toMatch(/turns in \d+\.\d/);
  });

  it('has the pace of each routine, and what helps where the crew feeds faster', () => {
    for (const [name, { limitMPerMin }] of Object.entries(plan.pace.routines ?? {})) {
      const shown = new RegExp(`^ {2}${name} +([0-9.]+) m/min`, 'm').exec(text)?.[1];
      expect((limitMPerMin ?? 0) - Number(shown)).toBeGreaterThanOrEqual(-1e-9);
      expect((limitMPerMin ?? 0) - Number(shown)).toBeLessThan(0.01 + 1e-9);
    }
    expect(text).not.toContain('Slow to');
    const faster = planAsText(planOf({ ...demo, crew: { ...demo.crew, feedMPerMin: 5 } }));
    expect(faster).toMatch(/^Slow to 3\.\d\d m\/min between marks \d+ and \d+: the rip then takes \d+ s\.$/m);
    expect(faster).toMatch(/^With a measuring wheel, .* would allow \d/m);
  });

  it('has the bend and the twist at every mark, and why nothing is tilted while the wood stands still', () => {
    const words = text.replace(/\s+/g, ' ');
    expect(words).toMatch(/The sharpest bend is the inner wedge's at mark 6: .* limit for white oak is 100/);
    expect(words).toMatch(/A blade 25 mm wide .* So the blade can follow everywhere/);
    expect(words).toContain('Never tilt while the wood stands still in the cut.');
    const bend = text.slice(text.indexOf('The bend'), text.indexOf('The blade'));
    for (const { mark, outer, inner } of plan.bend?.marks ?? []) {
      const figures = [outer, inner].flatMap((wedge) => [
        wedge.thicknessMm.toFixed(1),
        wedge.radiusOverThickness.toFixed(0),
      ]);
      const [number, thick, , times, innerThick, , innerTimes] = row(bend, mark);
      expect([number, thick, times, innerThick, innerTimes]).toEqual([`${mark}`, ...figures]);
    }
    const blade = text.slice(text.indexOf('The blade'));
    for (const { mark, degPerM, limitDegPerM } of plan.rip?.blade.marks ?? [])
      expect(row(blade, mark)).toEqual([`${mark}`, degPerM.toFixed(1), limitDegPerM.toFixed(1)]);
  });

  it('says which marks are too much for wood and blade, with the cures', () => {
    const siding = { ...demo.frame, siding: 70, moulding: 120 };
    const deep = planAsText(planOf({ ...demo, frame: siding, saw: { ...demo.saw, bladeWidth: 50 } }));
    expect(deep).toMatch(/^ +6 .*too sharp$/m);
    expect(deep).toMatch(/^Cure: 2 planks of .* mm, each ripped with 1\/2 of the bevel/m);
    expect(deep).toMatch(/^ +9 .*too fast$/m);
    expect(deep).toMatch(/^Cure: a narrower blade/m);
  });

  it('keeps to a width that any terminal shows', () => {
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
  });

  it('says when which end leads rests on defaults, and which fields were filled in', () => {
    const { saw: _, ...bare } = demo;
    const words = planAsText(planOf({ ...bare, frame: { siding: 48 } })).replace(/\s+/g, ' ');
    expect(words).toContain('this rests on assumed fields: confirm it before sawing');
    expect(words).toContain('frame.mouldedFace');
  });

  it('names each suspect once, with its row', () => {
    const files = { ...demoFiles, 'pickup.csv': demoFiles['pickup.csv'].replace('700,11.5', '700,16.5') };
    const spoilt = planAsText(planOf(demo, files));
    expect(spoilt.match(/Row 8, girth 700 mm: found \+16\.5/g)).toHaveLength(1);
    expect(spoilt).not.toContain('pickup.csv, row 8');
  });

  it("tells lengths in the user's units", () => {
    const inches = planAsText({
      ...plan,
      units: 'in',
      notation: 'inches and fractions',
      marks: plan.marks.map((m) => ({ ...m, stockMm: m.mark * 25.4 * 2.375 })),
    });
    expect(inches).toContain('Siding, moulding  1 7/8 in, 2 15/16 in');
    expect(inches).toMatch(/^ {3}1 .* 2 3\/8 /m);
  });
});

it('keeps a whole number of inches and its fraction on one line, wherever the line ends', () => {
  const plan = planOf({ ...demo, notation: 'inches and fractions' });
  for (let long = 1; long <= 12; long++) {
    const message = `${'word '.repeat(17)}${'x'.repeat(long)} 7 7/8 in from the head end`;
    const text = planAsText({ ...plan, warnings: [{ code: 'twist', message }] });
    expect(text).not.toMatch(/\d\n +\d+\/\d/);
    expect(text).toContain('7 7/8 in');
  }
});
