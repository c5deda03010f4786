/** Files that a job names: plain ones in the folder of the job, and no others. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { runCli } from '../kit/runCli.ts';
import { goodFiles, goodJob } from '../wire/goodJobs.ts';

/** A job whose table of bevels goes by this name, and the folder that it lies in, below one that is not its own. */
function jobNaming(pickup: string): { readonly folder: string; readonly path: string } {
  const folder = join(freeDataDir(), 'job');
  mkdirSync(folder);
  const job = { ...goodJob(), shape: { pickup } };
  writeFileSync(join(folder, 'job.json'), JSON.stringify(job));
  writeFileSync(join(folder, 'good.csv'), goodFiles()['pickup.csv']);
  writeFileSync(join(folder, '..', 'elsewhere.csv'), goodFiles()['pickup.csv']);
  return { folder, path: join(folder, 'job.json') };
}

const refused = async (path: string, wanted: RegExp): Promise<void> => {
  const told = await runCli('plan', path);
  expect(told).toMatchObject({ code: 2, out: '' });
  expect(told.err).toMatch(wanted);
  expect(told.err.trimEnd().split('\n')).toHaveLength(1);
};

describe('a table that a job names', () => {
  test('in its folder, in one below it, or by a link to such a file is read', async () => {
    for (const name of ['good.csv', './good.csv', 'below/good.csv', 'link.csv']) {
      const { folder, path } = jobNaming(name);
      mkdirSync(join(folder, 'below'));
      writeFileSync(join(folder, 'below', 'good.csv'), readFileSync(join(folder, 'good.csv')));
      symlinkSync('good.csv', join(folder, 'link.csv'));
      expect(await runCli('plan', path)).toMatchObject({ code: 0 });
    }
  });

  test('outside its folder is refused, by its name or by a link', async () => {
    await refused(
      jobNaming('../elsewhere.csv').path,
      /^\.\.\/elsewhere\.csv: found a file outside the folder of the job/,
    );
    await refused(jobNaming('/etc/passwd').path, /found a file outside the folder of the job; wanted a file in that/);
    const { folder, path } = jobNaming('link.csv');
    symlinkSync(join('..', 'elsewhere.csv'), join(folder, 'link.csv'));
    await refused(path, /^link\.csv: found a file outside the folder of the job/);
  });

  test('that is a pipe, a device or a folder is refused at once', async () => {
    const { folder, path } = jobNaming('pipe.csv');
    execFileSync('mkfifo', [join(folder, 'pipe.csv')]);
    await refused(path, /^pipe\.csv: found a device or a pipe; wanted a table/);
    await refused(jobNaming('.').path, /found a folder/);
  });

  test('that leads back to itself, or is far too long, is refused', async () => {
    const round = jobNaming('round.csv');
    symlinkSync('round.csv', join(round.folder, 'round.csv'));
    await refused(round.path, /^round\.csv: found a link that leads back to itself/);
    const { folder, path } = jobNaming('long.csv');
    writeFileSync(join(folder, 'long.csv'), '');
    truncateSync(join(folder, 'long.csv'), 20_000_000);
    await refused(path, /^long\.csv: found 20000000 bytes; wanted at most/);
  });
});

test('a job, and a table of what was measured, is no device either', async () => {
  await refused('/dev/zero', /^\/dev\/zero: found a device or a pipe; wanted a job file/);
  const { path } = jobNaming('good.csv');
  const told = await runCli('save', path, '--measured', '/dev/zero');
  expect(told).toMatchObject({ code: 2, err: '/dev/zero: found a device or a pipe; wanted a table along,bevel\n' });
});
