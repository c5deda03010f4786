/** The same paper from the command line, from an address and from the record of a run. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, onTestFinished, test } from 'vitest';
import { cli } from '../../server/cli.ts';
import { loadDemo } from '../../server/demo/loadDemo.ts';
import { makePaper } from '../../server/paper/makePaper.ts';
import { PAPERS, type PaperTask } from '../../server/wire/request/papers.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { startProgram } from '../kit/program.ts';
import { linesOf, readPages } from './printed.ts';

const DEMO = fileURLToPath(new URL('../../server/demo/job.json', import.meta.url));

async function run(...args: string[]) {
  const said = { out: '', err: '' };
  const write = (to: 'out' | 'err') => ({
    write: (text: string) => {
      said[to] += text;
    },
  });
  return { code: await cli(args, { out: write('out'), err: write('err') }), ...said };
}
const post = (address: string, body: unknown): Promise<Response> =>
  fetch(address, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) });
const bytesOf = async (answer: Response): Promise<Buffer> => Buffer.from(await answer.arrayBuffer());

test('every paper by command', async () => {
  const dir = freeDataDir();
  const plan = await demoPlan();
  for (const paper of PAPERS) {
    const out = join(dir, `${paper}.pdf`);
    const size = paper === 'strip' ? 'tape24' : 'letter';
    expect(await run(paper, DEMO, '--out', out, '--paper', size)).toEqual({ code: 0, out: '', err: '' });
    const bytes = await makePaper({ plan, paper, size } as PaperTask);
    expect(readFileSync(out).equals(bytes)).toBe(true);
  }
});

test('address, run and command give the same file byte for byte; so does the record, also when the server is gone', async () => {
  const dataDir = freeDataDir();
  const program = await startProgram(dataDir);
  onTestFinished(() => program.end('SIGKILL'));
  const { job, files } = await loadDemo();
  const strip = join(dataDir, 'strip.pdf');
  expect(await run('strip', DEMO, '--out', strip)).toEqual({ code: 0, out: '', err: '' });
  const posted = await post(`${program.url}/api/paper/strip`, { job, files });
  expect(posted.headers.get('content-type')).toBe('application/pdf');
  expect(readFileSync(strip).equals(await bytesOf(posted))).toBe(true);

  const made = await post(`${program.url}/api/runs`, { job, files, mode: 'rehearsal', feed: { kind: 'external' } });
  const { run: id } = (await made.json()) as { run: string };
  const ofTheRun = await fetch(`${program.url}/api/runs/${id}/paper/strip.pdf`);
  expect(readFileSync(strip).equals(await bytesOf(ofTheRun))).toBe(true);

  await post(`${program.url}/api/runs/${id}/start`, { withoutSound: true });
  for (const each of ['stop-feed', 'resume', 'finish']) await post(`${program.url}/api/runs/${id}/${each}`, {});
  const bytes = await bytesOf(await fetch(`${program.url}/api/runs/${id}/paper/record.pdf`));
  const text = (await readPages(bytes)).flatMap(linesOf).join('\n');
  expect(text).toContain(`Run ${id},`);
  expect(text).toContain('State finished. No mark passed, ended before 13 of 13');
  expect(text.replaceAll('\n', ' ')).toMatch(/started without sound .*stop feed, from a page .*resumed .*ended/);

  const out = join(dataDir, 'record.pdf');
  const busy = await run('record', id, '--out', out, '--data', dataDir);
  expect(busy).toMatchObject({ code: 2, err: expect.stringMatching(/^record: the data folder .*record page/) });
  await program.end();
  expect(await run('record', id, '--out', out, '--data', dataDir)).toEqual({ code: 0, out: '', err: '' });
  expect(readFileSync(out).equals(bytes)).toBe(true);
  // Two servers and a voice: a machine that is busy with other tests is waited for.
}, 180_000);

test.each([
  ['no file', ['strip', DEMO], 'strip: no --out given; wanted the name of the PDF file to write\n'],
  [
    'a size that a sheet has not',
    ['sheet', DEMO, '--out', 'x.pdf', '--paper', 'roll62'],
    '--paper: found "roll62"; wanted one of a4, letter\n',
  ],
  [
    'a folder that is not there',
    ['board', DEMO, '--out', '/none/of/it/x.pdf'],
    '--out /none/of/it/x.pdf: found no such folder; wanted a file that can be written\n',
  ],
  [
    'a record of nothing',
    ['record', 'abc', '--out', 'x.pdf', '--data', '/none'],
    'record: found no runs in /none; name the folder that keeps them with --data\n',
  ],
])('%s: exit code 2 and one line', async (_what, args, err) => {
  expect(await run(...args)).toEqual({ code: 2, out: '', err });
});

test('a job that does not say what the leading end rests on: on paper, and on the error output', async () => {
  const dir = freeDataDir();
  const job = JSON.parse(readFileSync(DEMO, 'utf8'));
  delete job.saw.leans;
  writeFileSync(join(dir, 'job.json'), JSON.stringify(job));
  for (const name of ['pickup.csv', 'pattern.csv'])
    writeFileSync(join(dir, name), readFileSync(join(DEMO, '..', name)));
  const out = join(dir, 'strip.pdf');
  const said = await run('strip', join(dir, 'job.json'), '--out', out);
  expect(said).toMatchObject({ code: 0, err: expect.stringContaining('confirm it before sawing') });
  expect((await readPages(readFileSync(out)))[0]?.text).toContain('LEADS: NOT CONFIRMED');
});
