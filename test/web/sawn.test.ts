/** Trial and save from outside: the commands and the addresses, on the real program. */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { cli } from '../../server/cli.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { sawnAlong } from '../../server/core/sawn/trial.ts';
import { loadDemo } from '../../server/demo/loadDemo.ts';
import { createPlanner } from '../../server/workers/createPlanner.ts';
import { demoPlan } from '../kit/demoPlan.ts';

let folder = '';
let plan: Plan;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'sawn-'));
  plan = await demoPlan();
});
afterAll(() => rm(folder, { recursive: true }));

const DEMO = new URL('../../server/demo/job.json', import.meta.url).pathname;

async function run(...args: readonly string[]) {
  const [out, err]: [string[], string[]] = [[], []];
  const code = await cli(args, {
    out: { write: (text: string) => out.push(text) > 0 },
    err: { write: (text: string) => err.push(text) > 0 },
  } as Parameters<typeof cli>[1]);
  return { code, out: out.join(''), err: err.join('') };
}

/** Sawn so far off its marks, measured every 75 mm to a tenth of a degree. */
function sawn(shiftMm: number): string {
  const at = sawnAlong(plan);
  const rows = Array.from({ length: 28 }, (_, i) => `${-110 + 75 * i},${at(-110 + 75 * i + shiftMm).toFixed(1)}`);
  return ['along,bevel', ...rows, ''].join('\n');
}

describe('save', () => {
  test('says how a shifted piece is laid, in words and as JSON', async () => {
    const file = join(folder, 'piece.csv');
    await writeFile(file, sawn(60));
    const { code, out } = await run('save', DEMO, '--measured', file);
    expect(code).toBe(0);
    expect(out).toContain('The outer wedge can be saved');
    expect(out).toMatch(/Strike all marks anew, (59|60|61) mm nearer to the heel end/);
    const told = JSON.parse((await run('save', DEMO, '--measured', file, '--json')).out);
    expect(told).toMatchObject({ format: 'by-the-mark/saved-piece@1', verdict: 'fits', half: 'outer' });
    expect(Math.abs(told.shift.shiftMm - 60)).toBeLessThan(2);
  });

  test('what is wrong is told in a line, with exit code 2', async () => {
    const file = join(folder, 'bad.csv');
    await writeFile(file, 'along,bevel\n0,x\n');
    expect(await run('save', DEMO)).toMatchObject({ code: 2, err: expect.stringContaining('--measured') });
    expect(await run('save', DEMO, '--measured', join(folder, 'none.csv'))).toMatchObject({ code: 2 });
    expect(await run('save', DEMO, '--measured', file)).toMatchObject({
      code: 2,
      err: expect.stringContaining('column bevel'),
    });
    await writeFile(file, sawn(0));
    expect(await run('save', DEMO, '--measured', file, '--half', 'upper')).toMatchObject({ code: 2 });
    expect(await run('save', DEMO, '--measured', file, '--to', 'far')).toMatchObject({
      code: 2,
      err: expect.stringContaining('to'),
    });
  });
});

describe('trial', () => {
  test('writes a job that plans like any other, and takes what was measured back in', async () => {
    const file = join(folder, 'trial.json');
    const { code, out } = await run('trial', DEMO, '--out', file);
    expect(code).toBe(0);
    expect(out).toMatch(/Then measure the bevel of the sawn face/);
    const planned = await run('plan', file, '--json');
    expect(planned.code).toBe(0);
    expect(JSON.parse(planned.out)).toMatchObject({ leads: plan.leads, leadsIsSure: true });
    expect(await readFile(join(folder, 'trial-bevels.csv'), 'utf8')).toContain('girth,bevel');
    const { trial } = JSON.parse((await run('trial', DEMO, '--json')).out);
    const measured = join(folder, 'measured.csv');
    const rows = trial.measureAt.map((at: { alongMm: number; bevelDeg: number }) => `${at.alongMm},${at.bevelDeg + 1}`);
    await writeFile(measured, ['along,bevel', ...rows, ''].join('\n'));
    const told = JSON.parse((await run('trial', DEMO, '--measured', measured, '--error', '0.2', '--json')).out);
    expect(told.correction.off[0].deg.value).toBeCloseTo(1, 1);
    expect((await run('trial', DEMO, '--measured', measured, '--error', '0.2')).out).toContain('saw.readoutTable');
  });
});

test('the planning thread does it too, and a body of another shape is refused with its path', async () => {
  const planner = createPlanner();
  try {
    const demo = await loadDemo();
    const carried = { job: demo.job as Readonly<Record<string, unknown>>, files: demo.files };
    const saved = await planner.save({ ...carried, measured: sawn(40), half: 'outer', errorDeg: 0.5 });
    expect(saved).toMatchObject({ ok: true, value: { verdict: 'fits' } });
    expect(await planner.trial({ ...carried, whole: true })).toMatchObject({
      ok: true,
      value: { trial: { fromMark: 1 } },
    });
    const short = await planner.correct({
      ...carried,
      whole: false,
      measured: 'along,bevel\n-50,1\n-40,2\n',
      errorDeg: 0.5,
    });
    expect(short).toMatchObject({ ok: false, problems: [{ code: 'too-few' }] });
  } finally {
    await planner.close();
  }
});
