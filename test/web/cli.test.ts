/** The commands as they are started from the shell. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, onTestFinished, test } from 'vitest';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { runCli as run } from '../kit/runCli.ts';
import { ask } from './openWeb.ts';

const DOOR = fileURLToPath(new URL('../../server/door.mjs', import.meta.url));
const DEMO = fileURLToPath(new URL('../../server/demo/job.json', import.meta.url));

interface Started {
  readonly child: ChildProcess;
  readonly said: { out: string; err: string };
  readonly ended: Promise<number | null>;
  /** The line on stdout that begins with this word, once it is there. */
  line(word: string): Promise<string>;
}

/** In a folder that is not the checkout, as an installed command would be. */
function start(...args: string[]): Started {
  const child = spawn(process.execPath, [DOOR, ...args], { cwd: freeDataDir(), stdio: ['ignore', 'pipe', 'pipe'] });
  const said = { out: '', err: '' };
  child.stdout?.on('data', (part) => {
    said.out += part;
  });
  child.stderr?.on('data', (part) => {
    said.err += part;
  });
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve));
  onTestFinished(async () => {
    child.kill('SIGKILL');
    await ended;
  });
  return {
    child,
    said,
    ended,
    async line(word) {
      const found = () => said.out.split('\n').find((line) => line.startsWith(`${word} `));
      await expect.poll(() => child.exitCode !== null || found() !== undefined, { timeout: 30_000 }).toBe(true);
      return found() ?? `no ${word}: ${said.err}`;
    },
  };
}

describe('what is given wrong ends with 2 and one line', () => {
  test.each([
    ['no command', [], /no command given: one of serve, plan, boat, strip, sheet/],
    ['an unknown command', ['sreve'], /there is no command "sreve"/],
    ['an unknown option', ['serve', '--prot', '3'], /serve: Unknown option '--prot'; it has --job, --port/],
    ['an option without its value', ['serve', '--port'], /serve: .*--port/],
    ['a port that is none', ['serve', '--port', '70000'], /--port 70000: wanted a number from 0/],
    ['a host open to others', ['serve', '--host', '0.0.0.0'], /add --lan/],
    ['a job that is not there', ['serve', '--job', 'none.json'], /none\.json: found no such file; wanted a job file/],
    ['no job', ['plan'], /plan: no JOB given/],
    ['a plan of nothing', ['plan', 'none.json'], /none\.json: found no such file/],
    ['a plan of a folder', ['plan', '.'], /found a folder/],
    ['two jobs', ['plan', 'a', 'b'], /did not expect "b"/],
  ])('%s', async (_name, args, wanted) => {
    const { code, out, err } = await run(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(wanted);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });

  test('a data folder that is a file', async () => {
    const file = join(freeDataDir(), 'file');
    writeFileSync(file, '');
    expect(await run('serve', '--port', '0', '--data', file)).toMatchObject({
      code: 2,
      out: '',
      err: /is not a folder/,
    });
  });

  test('a port that is in use', async () => {
    const other = createServer();
    await new Promise<void>((done) => other.listen(0, '127.0.0.1', done));
    onTestFinished(() => void other.close());
    const { port } = other.address() as { port: number };
    const told = await run('serve', '--port', String(port), '--data', freeDataDir());
    expect(told).toMatchObject({
      code: 2,
      out: '',
      err: `serve: port ${port} is in use: end what uses it, or choose another with --port\n`,
    });
  });

  test('a job with several faults: one line each', async () => {
    const folder = freeDataDir();
    const job = JSON.parse(readFileSync(DEMO, 'utf8'));
    job.frame.siding = -3;
    job.saw = { ...job.saw, kerf: 'wide' };
    writeFileSync(join(folder, 'job.json'), JSON.stringify(job));
    const { code, err } = await run('plan', join(folder, 'job.json'));
    expect(code).toBe(2);
    const lines = err.trimEnd().split('\n');
    expect(lines.some((line) => line.startsWith('frame.siding: found '))).toBe(true);
    expect(lines.some((line) => line.startsWith('saw.kerf: found '))).toBe(true);
    for (const line of lines) expect(line).toMatch(/: found .*; wanted /);
  });
});

test('the exit code and the line reach the shell', async () => {
  const { said, ended } = start('serve', '--host', '0.0.0.0');
  expect(await ended).toBe(2);
  expect(said).toEqual({ out: '', err: expect.stringMatching(/^serve: --host 0\.0\.0\.0 .*\n$/) });
});

test('a plan is a table, or JSON', async () => {
  const json = await run('plan', DEMO, '--json');
  expect([json.code, json.err]).toEqual([0, '']);
  expect(JSON.parse(json.out).format).toBe('by-the-mark/plan@1');
  const table = await run('plan', DEMO);
  expect(table.code).toBe(0);
  expect(table.out).toContain('Marks');
});

test('the voices are listed', async () => {
  const { code, out } = await run('voices');
  expect(code).toBe(0);
  expect(out.trim()).not.toBe('');
});

describe('serve', () => {
  test.each(['SIGINT', 'SIGTERM'] as const)('says when it is ready and where to look; ends at %s', async (signal) => {
    const dataDir = join(freeDataDir(), 'deep', 'data');
    const server = start('serve', '--port', '0', '--data', dataDir);
    const [, url] = (await server.line('ready')).split(' ');
    expect(url).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/);
    expect((await ask(`${url}/api/health`)).json).toMatchObject({ ok: true });
    expect((await ask(`${url}/api/jobs`)).json.length).toBeGreaterThan(0);
    expect(server.said.err).toContain(`Open in a browser: ${url}/`);
    expect(server.said.out.trim()).toBe(`ready ${url}`);
    const began = Date.now();
    server.child.kill(signal);
    expect(await server.ended).toBe(0);
    expect(Date.now() - began).toBeLessThan(3000);
  });

  test('with --lan says the console’s address, which opens with its key only', async () => {
    const dataDir = freeDataDir();
    const server = start('serve', '--lan', '--host', '127.0.0.1', '--port', '0', '--data', dataDir);
    const consoleUrl = (await server.line('console')).split(' ')[1] ?? '';
    const url = (await server.line('ready')).split(' ')[1] ?? '';
    expect(server.said.out.split('\n')[0]).toBe(`ready ${url}`);
    expect(url).toMatch(/^https:\/\/127\.0\.0\.1:\d+$/);
    const ca = readFileSync(join(dataDir, 'access', 'certificate.pem'), 'utf8');
    expect((await ask(`${url}/api/health`, { ca })).status).toBe(200);
    expect((await ask(`${url}/api/runs`, { ca })).status).toBe(401);
    const key = new URL(consoleUrl).searchParams.get('key') ?? '';
    expect((await ask(`${url}/api/runs`, { ca, headers: { authorization: `Bearer ${key}` } })).status).toBe(200);
  });

  test('offers the job that it was given before the demo', async () => {
    const folder = freeDataDir();
    mkdirSync(join(folder, 'own'));
    for (const file of ['job.json', 'pickup.csv', 'pattern.csv'])
      writeFileSync(
        join(folder, 'own', file === 'job.json' ? 'my-frame.json' : file),
        readFileSync(join(DEMO, '..', file)),
      );
    const server = start('serve', '--port', '0', '--data', folder, '--job', join(folder, 'own', 'my-frame.json'));
    const url = (await server.line('ready')).split(' ')[1];
    const jobs = (await ask(`${url}/api/jobs`)).json;
    expect(jobs[0].name).toBe('my-frame');
    expect(Object.keys((await ask(`${url}/api/jobs/my-frame`)).json.files)).toContain('pickup.csv');
  });

  test('two servers do not share a data folder', async () => {
    const dataDir = freeDataDir();
    await start('serve', '--port', '0', '--data', dataDir).line('ready');
    const second = await run('serve', '--port', '0', '--data', dataDir);
    expect(second.code).toBe(2);
    expect(second.err).toContain(dataDir);
    expect(second.err.trimEnd().split('\n')).toHaveLength(1);
  });
});
