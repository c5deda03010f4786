import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { outsideClient } from '../kit/client.ts';
import { DOOR, startProgram } from '../kit/program.ts';
import { spread } from './spread.ts';
import { synthesiserPerCall } from './synthesiserPerCall.ts';

const PRESSES = 300;
const PRESSES_OF_A_RUN = 12;

/** From a press leaving an outside socket to its call arriving at another, over loopback, the press made durable in between. */
export async function pedalToCall(): Promise<void> {
  const dataDir = mkdtempSync(join(tmpdir(), 'by-the-mark-bench-'));
  const program = await startProgram(dataDir, [], DOOR);
  try {
    console.log(`start to ready: ${program.readyMs.toFixed(0)} ms`);
    const times: number[] = [];
    const texts: string[] = [];
    while (times.length < PRESSES) await oneRun(program.url, times, texts);
    console.log(spread('press -> call on /readout', times.slice(0, PRESSES)));
    const onDemand: number[] = [];
    for (const text of texts.slice(0, 20)) onDemand.push(await synthesiserPerCall(text));
    console.log(spread('the same, a synthesiser started per call (to first sample)', onDemand));
  } finally {
    await program.end();
    rmSync(dataDir, { recursive: true, force: true });
  }
}

async function oneRun(url: string, times: number[], texts: string[]): Promise<void> {
  const { makeDemoRun, socket, post } = outsideClient(url);
  const { run } = await makeDemoRun();
  const readout = await socket(`/readout?run=${run}`);
  const feed = await socket(`/feed?run=${run}`);
  await post(`/api/runs/${run}/start`);
  // The first mark over and over: a press at the next one would be refused so soon.
  for (let press = 0; press < PRESSES_OF_A_RUN; press += 1) {
    if (press > 0) feed.send({ kind: 'pedal', gesture: 'back' });
    await new Promise((resolve) => setTimeout(resolve, 40));
    const sentMs = performance.now();
    feed.send({ kind: 'pedal', id: `p${press}` });
    const call = await readout.until(({ kind, cause }) => kind === 'call' && cause === `p${press}`);
    const heard = readout.heard.find(({ frame }) => frame === call);
    times.push((heard?.atMs ?? Number.NaN) - sentMs);
    texts.push(String(call.text));
  }
  readout.close();
  feed.close();
}
