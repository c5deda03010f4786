/** Papers by their addresses: what is asked wrong is told, and who may ask. */
import { expect, test } from 'vitest';
import { openWeb } from './openWeb.ts';

test('a paper that there is not, a size that it is not made in, a job that cannot be planned', async () => {
  const { ask } = await openWeb();
  const job = { format: 'x' };
  const post = (path: string, body: unknown) => ask(path, { method: 'POST', body });
  const none = await post('/api/paper/poster', { job });
  expect([none.status, none.json.error.code]).toEqual([404, 'no-such-paper']);
  expect(none.json.error.message).toContain('strip, sheet, which-way, board, test-cuts');
  const roll = await post('/api/paper/sheet', { job, paper: 'roll62' });
  expect([roll.status, roll.json.error.path]).toEqual([400, 'paper']);
  expect(roll.json.error.message).toBe('paper: expected one of a4, letter, found "roll62"');
  expect((await post('/api/paper/sheet', { job, paper: 7 })).status).toBe(400);
  expect((await post('/api/paper/sheet', { job: { bad: true } })).json.problems).toHaveLength(1);
  expect((await ask('/api/paper/sheet')).status).toBe(405);
  for (const path of ['poster.pdf', 'sheet', 'record.png'])
    expect((await ask(`/api/runs/r1/paper/${path}`)).status).toBe(404);
  expect((await ask('/api/runs/r1/paper/record.pdf?paper=roll62')).status).toBe(400);
  expect((await ask('/api/runs/none/paper/record.pdf')).json.error.code).toBe('no-such-run');
});

test('a run gives its papers and its record', async () => {
  const { ask } = await openWeb();
  for (const name of ['strip', 'sheet', 'record']) {
    const { status, headers, text } = await ask(`/api/runs/r1/paper/${name}.pdf`);
    expect([status, headers['content-type'], text.slice(0, 5)]).toEqual([200, 'application/pdf', '%PDF-']);
  }
});
