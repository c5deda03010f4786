import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { openJournal } from '../../server/journal/openJournal.ts';
import { lanAccess } from '../../server/web/access/lanAccess.ts';
import { madeUpRun } from '../journal/madeUpRun.ts';
import { outsideClient } from '../kit/client.ts';
import { startProgram } from '../kit/program.ts';
import { smallDisk } from '../kit/smallDisk.ts';

it('says in plain words that the disk is full, makes no half a run, and still takes a stop', async () => {
  const disk = smallDisk(48);
  const program = await startProgram(join(disk.dir, 'data'));
  onTestFinished(() => program.end('SIGKILL'));
  const { get, post, makeDemoRun, socket, journal } = outsideClient(program.url);
  const { run } = await makeDemoRun();
  await post(`/api/runs/${run}/start`);
  const feed = await socket(`/feed?run=${run}`);
  feed.send({ kind: 'pedal', id: 'before' });
  await feed.until(({ id, ok }) => id === 'before' && ok === true);
  disk.fill();

  const { json: demo } = await get('/api/jobs/demo');
  const refused = await post('/api/runs', { ...demo, mode: 'pair', feed: { kind: 'external' } });
  expect(refused.status).toBe(409);
  expect(refused.json.error).toMatchObject({ code: 'disk-full', message: expect.stringContaining('Make room') });
  expect(refused.text).not.toContain(disk.dir);
  expect((await get('/api/runs')).json).toHaveLength(1);

  // The log has pages that can be written over: readings are kept until they are used up.
  let press = 0;
  for (let isKept = true; isKept; press += 1) {
    feed.send({ kind: 'tilt', deg: press / 10, id: `t${press}` });
    isKept = (await feed.until(({ id }) => id === `t${press}`)).ok === true;
    expect(press).toBeLessThan(5000);
  }
  feed.send({ kind: 'pedal', gesture: 'stop', id: 'stop' });
  expect(await feed.until(({ id }) => id === 'stop')).toEqual({ ok: true, id: 'stop', kept: false });
  const stopped = await post(`/api/runs/${run}/stop-feed`);
  expect([stopped.status, stopped.json.ok, stopped.json.kept]).toEqual([200, true, false]);
  const finish = await post(`/api/runs/${run}/finish`);
  expect([finish.status, finish.json.error.code]).toEqual([409, 'not-kept']);

  disk.makeRoom();
  expect((await post('/api/runs', { ...demo, mode: 'pair', feed: { kind: 'external' } })).status).toBe(201);
  const lines = await journal(run);
  expect(lines.some(({ kind }) => kind === 'unreadable')).toBe(false);
  feed.close();
});

it('leaves neither run nor key behind where there is no room for it', async () => {
  const disk = smallDisk(4);
  const access = await lanAccess(disk.dir);
  const file = join(disk.dir, 'journal.sqlite');
  const journal = openJournal({ file });
  journal.keepRun(madeUpRun('first'));
  journal.settle();
  disk.fill();
  await expect(access.addDevice('wheel', 'tablet')).rejects.toMatchObject({ code: 'ENOSPC' });
  expect(access.devices()).toEqual([]);
  expect(() => {
    for (let run = 0; run < 100; run += 1) journal.keepRun(madeUpRun(`next${run}`));
  }).toThrow(expect.objectContaining({ code: 'full' }));
  const names = journal.names(1000);
  journal.close();
  disk.makeRoom();
  const again = openJournal({ file });
  expect(again.names(1000)).toEqual(names);
  for (const name of names) expect(again.run(name)).toEqual(madeUpRun(name));
  again.keepRun(madeUpRun('next99'));
  again.close();
  expect((await access.addDevice('wheel', 'tablet')).device.role).toBe('wheel');
  expect(existsSync(join(disk.dir, 'access', 'devices.json'))).toBe(true);
});
