/** Frames from the table of offsets, through the doors: the command `boat`, and a plan by HTTP. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, onTestFinished, test } from 'vitest';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { startProgram } from '../kit/program.ts';
import { runCli as run } from '../kit/runCli.ts';
import { ask } from './openWeb.ts';

const DEMO = fileURLToPath(new URL('../../server/demo/offsets-job.json', import.meta.url));
const OFFSETS = readFileSync(new URL('../../server/demo/offsets.csv', import.meta.url), 'utf8');
const job = JSON.parse(readFileSync(DEMO, 'utf8'));

describe('by-the-mark boat', () => {
  test('prints a line for each frame of the job', async () => {
    const { code, out } = await run('boat', DEMO);
    expect(code).toBe(0);
    for (const atMm of job.shape.frames) expect(out).toMatch(new RegExp(`^ *${atMm} mm `, 'm'));
    expect(out).toContain('Sawn bevels in degrees, standing +, under -');
    expect(out).toContain("A mark every 150 mm of girth from the heel; a frame's last one is at its head.");
  });

  test('as JSON, at places that are asked for', async () => {
    const { code, out } = await run('boat', DEMO, '--at', '1000, 2000, 100 in', '--json');
    expect(code).toBe(0);
    const boat = JSON.parse(out);
    expect(boat.format).toBe('by-the-mark/boat@1');
    expect(boat.frames.map(({ atMm }: { atMm: number }) => atMm)).toEqual([1000, 2000, 2540]);
    expect(boat.frames[0].marks[0]).toMatchObject({
      mark: 1,
      girthMm: 0,
      bevelDeg: expect.any(Number),
      hollowMm: expect.any(Number),
    });
  });

  test.each([
    ['no length', ['--at', '1000,soon'], '--at[1]'],
    ['beyond the stations', ['--at', '1000,90000'], '--at[1]'],
  ])('%s: exit code 2, and where', async (_, args, place) => {
    const { code, err } = await run('boat', DEMO, ...args);
    expect(code).toBe(2);
    expect(err).toContain(place);
  });

  test('a job that was picked up has no table to take a boat from', async () => {
    const { code, err } = await run('boat', fileURLToPath(new URL('../../server/demo/job.json', import.meta.url)));
    expect(code).toBe(2);
    expect(err).toContain('wanted a table of offsets');
  });

  test('a slip of the pen is told in one line with its cell and what would be fair, and what to do if it is so drawn', async () => {
    const lines = OFFSETS.split('\n');
    const index = lines.findIndex((line) => line.startsWith('5,')) + 7;
    const [station, x, y, z] = (lines[index] ?? '').split(',');
    const wrong = `${Number(y) + (Number(y) % 1000 < 700 ? 200 : -200)}`;
    lines[index] = [station, x, wrong, z].join(',');
    const folder = mkdtempSync(join(tmpdir(), 'boat-'));
    writeFileSync(join(folder, 'offsets.csv'), lines.join('\n'));
    writeFileSync(join(folder, 'job.json'), JSON.stringify(job));
    const told = await run('plan', join(folder, 'job.json'));
    expect(told.code).toBe(2);
    expect(told.err.trim().split('\n')).toHaveLength(1);
    expect(told.err).toMatch(
      new RegExp(`offsets.csv.*"${wrong}" on station 5, \\d+ mm off the fair line.*about \\d+.*"asDrawn": true`),
    );
    const about = Number(/about (\d+)/.exec(told.err)?.[1]);
    expect(Math.abs(about - Number(y))).toBeLessThan(8);
    writeFileSync(join(folder, 'job.json'), JSON.stringify({ ...job, shape: { ...job.shape, asDrawn: true } }));
    const drawn = await run('plan', join(folder, 'job.json'));
    expect(drawn.code).toBe(0);
    expect(drawn.out.replace(/\s+/g, ' ')).toContain('It is taken as it stands.');
  });
});

/** A flat-bottomed skiff, made up: bottom and side meet in a chine; stations to the millimetre. */
const CHINED = [
  'station,x,y,z,knuckle',
  ...[0, 700, 1400, 2100, 2800, 3500, 4200].flatMap((x, i) => {
    const full = Math.sin(Math.PI * (0.15 + (0.7 * x) / 4200));
    const [half, rise] = [520 * full, 160 * (1 - full)];
    const row = (y: number, z: number, knuckle = '') => `${i},${x},${Math.round(y)},${Math.round(z)},${knuckle}`;
    return [
      ...[0.1, 0.4, 0.7].map((t) => row(half * t, rise + 20 * t)),
      row(half, rise + 20, 'yes'),
      ...[0.33, 0.66, 1].map((t) => row(half + 110 * t, rise + 20 + 420 * t)),
    ];
  }),
  '',
].join('\n');

test('a chine and a cant, by the command and by HTTP; a frame picked up beside the offsets', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'chined-'));
  const chined = {
    format: 'by-the-mark/job@1',
    units: 'mm',
    frame: { siding: 30 },
    shape: { offsets: 'skiff.csv', at: 1000, cantDeg: 6, frames: [600, 1000, 3000] },
    marks: { spacing: 100 },
  };
  writeFileSync(join(folder, 'skiff.csv'), CHINED);
  writeFileSync(join(folder, 'job.json'), JSON.stringify(chined));
  const { code, out } = await run('boat', join(folder, 'job.json'), '--json');
  expect(code).toBe(0);
  const boat = JSON.parse(out);
  expect(boat.cantDeg).toBe(6);
  for (const frame of boat.frames) {
    expect(frame.knuckles).toHaveLength(1);
    expect(Math.abs(frame.knuckles[0].belowDeg - frame.knuckles[0].aboveDeg)).toBeGreaterThan(0.1);
    expect(frame.warnings.join(' ')).toContain('Saw the frame in two lengths that meet there.');
  }
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const files = { 'skiff.csv': CHINED };
  const planned = await ask(`${program.url}/api/plan`, { method: 'POST', body: { job: chined, files } });
  expect(planned.status).toBe(200);
  expect(planned.json.offsets.knuckles).toEqual(boat.frames[1].knuckles);
  expect(planned.json.warnings.map(({ code: of }: { code: string }) => of)).toContain('knuckle');

  const { shape } = job;
  const picked = { ...job, shape: { ...shape, pickup: 'pickup.csv' } };
  const pickup = 'girth,bevel\n0,3.5\n300,6.5\n600,9.5\n750,11\n900,10.5\n1200,9.5\n1540,8.5\n';
  const held = await ask(`${program.url}/api/plan`, {
    method: 'POST',
    body: { job: picked, files: { 'offsets.csv': OFFSETS, 'pickup.csv': pickup } },
  });
  expect(held.status).toBe(200);
  expect(held.json.against.rows).toHaveLength(7);
  expect(held.json.against.neighbours.map(({ atMm }: { atMm: number }) => atMm)).toEqual([1800, 2250]);
  expect(held.json.offsets).toBeUndefined();
});

test('a plan and a run by HTTP: chord beside tangent, hollow, run-off; the job is offered on the start page', async () => {
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const offered = await ask(`${program.url}/api/jobs/demo-offsets`);
  expect(offered.json.job.shape.offsets).toBe('offsets.csv');
  const body = { job: { ...job, shape: { ...job.shape, cantDeg: 5 } }, files: { 'offsets.csv': OFFSETS } };
  const { status, json: plan } = await ask(`${program.url}/api/plan`, { method: 'POST', body });
  expect(status).toBe(200);
  expect(plan.offsets).toMatchObject({ file: 'offsets.csv', atMm: 1950, cantDeg: 5, plankingMm: 16 });
  expect(plan.offsets.runOff.places.length).toBeGreaterThan(50);
  for (const mark of plan.marks) {
    expect(mark.hollowMm).toEqual(expect.any(Number));
    expect(mark.yMm).toEqual(expect.any(Number));
  }
  const made = await ask(`${program.url}/api/runs`, {
    method: 'POST',
    body: { job, files: { 'offsets.csv': OFFSETS }, mode: 'rehearsal', feed: { kind: 'external' } },
  });
  expect(made.status).toBe(201);
  expect(made.json.plan.marks.length).toBeGreaterThan(5);
  const wrong = await ask(`${program.url}/api/plan`, { method: 'POST', body: { ...body, files: {} } });
  expect(wrong.status).toBe(400);
});
