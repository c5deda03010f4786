/** The whole program with a loudspeaker of its own: as a listener, in a run, and with users who type what they like. */
import { readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it, onTestFinished } from 'vitest';
import { onPath, standIn } from '../audio/standIn.ts';
import { outsideClient } from '../kit/client.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { hostileText } from '../kit/hostileText.ts';
import { startProgram } from '../kit/program.ts';

async function house(...args: string[]) {
  const dataDir = freeDataDir();
  const program = await startProgram(dataDir, args);
  onTestFinished(() => program.end('SIGKILL'));
  return { dataDir, ...outsideClient(program.url) };
}
const SHORT_JOB = (title = 'A frame', label = '9') => ({
  job: {
    format: 'by-the-mark/job@1',
    title,
    frame: { siding: 40, label },
    shape: { pickup: 'pickup.csv' },
    marks: { at: [0, 300] },
    saw: { readout: 1 },
  },
  files: { 'pickup.csv': 'girth,bevel\n0,4\n300,6\n' },
  mode: 'pair',
  feed: { kind: 'external' },
});

it('counts as a listener, speaks the calls, falls silent at a stop, and tells when it fails', async () => {
  const aplay = standIn('aplay');
  onPath(aplay.path);
  const { get, post, journal, socket, dataDir } = await house('--loudspeaker');
  const { run } = (await post('/api/runs', SHORT_JOB())).json;
  const ear = async () => (await get(`/api/runs/${run}`)).json.listeners[0];
  await expect.poll(async () => (await ear())?.hearing).toBe('silent');
  expect((await post(`/api/runs/${run}/start`)).json.error.code).toBe('sound-not-confirmed');
  expect((await post('/api/loudspeaker/confirm')).status).toBe(409);
  expect((await post('/api/loudspeaker/test')).json).toMatchObject({ player: 'aplay', tested: true, why: null });
  expect((await post('/api/loudspeaker/confirm')).json).toMatchObject({ hearing: 'confirmed' });
  expect(await ear()).toMatchObject({ label: 'Server’s loudspeaker', role: 'wheel', hearing: 'confirmed' });

  aplay.behave('sounds');
  const feed = await socket(`/feed?run=${run}`);
  expect((await post(`/api/runs/${run}/start`)).status).toBe(200);
  await expect.poll(() => aplay.alive()).toHaveLength(2);
  feed.send({ kind: 'pedal', id: 'p' });
  await expect.poll(() => aplay.given()).toHaveLength(3);
  // What was cut off may take a moment to be gone.
  await expect.poll(() => aplay.alive()).toHaveLength(2);
  const clip = new RegExp(`^${dataDir}/clips/[0-9a-f]{32}\\.wav$`);
  for (const { args, input } of aplay.given()) expect([args, input]).toEqual([['-q', expect.stringMatching(clip)], '']);

  aplay.behave('fails');
  await post(`/api/runs/${run}/stop-feed`);
  await expect.poll(async () => (await ear())?.hearing).toBe('suspended');
  const lines = await journal(run);
  expect(lines.find(({ kind }) => kind === 'unplayed')).toMatchObject({
    reason: expect.stringMatching(/^aplay: audio/),
  });
  expect((await get('/api/loudspeaker')).json.why).toMatch(/^aplay: audio open error/);
  await expect.poll(() => aplay.alive()).toEqual([]);
});

/** A busy machine starts a program in more than a second. */
const PATIENT = { timeout: 30_000 };

it('plays only files of its own, whatever jobs, frames, phrases and voices are called', async () => {
  const aplay = standIn('aplay');
  const festival = standIn('festival');
  const espeak = standIn('espeak-ng');
  onPath(aplay.path, festival.path, espeak.path);
  const { post, get, dataDir } = await house('--loudspeaker');
  await post('/api/loudspeaker/test');
  await post('/api/loudspeaker/confirm');
  let started = 0;
  for (const [title, label, name, text] of fc.sample(
    fc.tuple(hostileText, hostileText, hostileText, hostileText),
    25,
  )) {
    const named = `/api/voices/${encodeURIComponent(name)}`;
    expect([400, 422]).toContain((await post(`${named}/phrases`, { text, wav: 'AAAA' })).status);
    expect((await get(named)).status).toBe(404);
    expect((await post('/api/runs', { ...SHORT_JOB(title, label), voice: name })).status).toBe(400);
    const worded = SHORT_JOB(title, label);
    Object.assign(worded.job, { voice: { words: { stopFeed: text } } });
    // A few of them are plain words, which the yard may have.
    expect([201, 400]).toContain((await post('/api/runs', worded)).status);
    const made = await post('/api/runs', SHORT_JOB(title, label));
    if (made.status !== 201) continue;
    const listeners = async () => (await get(`/api/runs/${made.json.run}`)).json.listeners;
    await expect.poll(async () => (await listeners())[0]?.hearing, PATIENT).toBe('confirmed');
    const before = aplay.given().length;
    expect((await post(`/api/runs/${made.json.run}/start`)).status).toBe(200);
    await expect.poll(() => aplay.given().length, PATIENT).toBeGreaterThan(before);
    await post(`/api/runs/${made.json.run}/finish`);
    started += 1;
  }
  // Titles with unseen characters are refused, the others speak.
  expect(started).toBeGreaterThan(3);
  const clip = new RegExp(`^${dataDir}/clips/[0-9a-f]{32}\\.wav$`);
  for (const { args, input } of aplay.given()) expect([args, input]).toEqual([['-q', expect.stringMatching(clip)], '']);
  expect([...festival.given(), ...espeak.given()]).toEqual([]);
  expect(readdirSync(dataDir).filter((file) => !/^(clips|journal\.sqlite.*)$/.test(file))).toEqual([]);
}, 60_000);

it('renders a kept run’s clips again when they are asked for and gone or damaged', async () => {
  const { post, get, dataDir } = await house();
  const { run } = (await post('/api/runs', SHORT_JOB())).json;
  const { json: clips } = await get(`/api/runs/${run}/clips`);
  rmSync(join(dataDir, 'clips'), { recursive: true });
  for (const { url } of clips) {
    const told = await get(url);
    expect([told.status, told.text.slice(0, 4)]).toEqual([200, 'RIFF']);
  }
  expect((await get(`/api/clips/${'0'.repeat(32)}.wav`)).status).toBe(404);
});
