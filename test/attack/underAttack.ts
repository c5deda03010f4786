/** An honest run beside an attack: how long its acknowledgements take, and whether it is ever lost. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { WebSocket } from 'ws';
import { outsideClient } from '../kit/client.ts';
import type { AttackName } from './attacks.ts';

const DOOR = fileURLToPath(new URL('./door.mjs', import.meta.url));

/** Begins an attack in a process of its own; gives the end of it. */
export async function beginAttack(name: AttackName, url: string): Promise<() => Promise<void>> {
  const child = spawn(process.execPath, [DOOR, name, url], { stdio: ['ignore', 'pipe', 'inherit'] });
  const gone = once(child, 'exit');
  const begun = new Promise<void>((resolve) => createInterface({ input: child.stdout }).once('line', () => resolve()));
  await Promise.race([
    begun,
    gone.then(([code]) => Promise.reject(new Error(`the attack ${name} ended with ${code}`))),
  ]);
  return async () => {
    child.kill('SIGKILL');
    await gone;
  };
}

export interface HonestRun {
  /** From a count of travel or a press leaving until its acknowledgement is there, in ms. */
  readonly countsMs: readonly number[];
  readonly pressesMs: readonly number[];
  readonly refused: readonly string[];
  readonly wasLost: boolean;
}

const COUNT_EVERY_MS = 20;
const MM_A_COUNT = 0.6;
const COUNTS_A_PRESS = 10;

/** A run whose wheel counts 50 times a second and whose calls are asked for again five times a second, for so long. */
export async function honestRun(url: string, forMs: number): Promise<HonestRun> {
  const { makeDemoRun, post, socket } = outsideClient(url);
  const { run } = await makeDemoRun();
  const readout = await socket(`/readout?run=${run}`);
  await post(`/api/runs/${run}/start`);
  const [counts, presses] = await Promise.all([timedSender(url, run), timedSender(url, run)]);
  const beganMs = performance.now();
  for (let sent = 0; performance.now() - beganMs < forMs; sent += 1) {
    counts.send({ kind: 'travel', mm: sent * MM_A_COUNT });
    if (sent % COUNTS_A_PRESS === COUNTS_A_PRESS - 1) presses.send({ kind: 'pedal', gesture: 'again' });
    const dueMs = beganMs + (sent + 1) * COUNT_EVERY_MS;
    await new Promise((resolve) => setTimeout(resolve, Math.max(0, dueMs - performance.now())));
  }
  await Promise.all([counts.end(), presses.end()]);
  readout.close();
  return {
    countsMs: counts.timesMs,
    pressesMs: presses.timesMs,
    refused: [...counts.refused, ...presses.refused],
    wasLost: readout.heard.some(({ frame }) => frame.state === 'lost'),
  };
}

async function timedSender(url: string, run: string) {
  const socket = new WebSocket(`${url.replace(/^http/, 'ws')}/feed?run=${run}`);
  await new Promise((resolve, reject) => socket.once('open', resolve).once('error', reject));
  const sentMs: number[] = [];
  const timesMs: number[] = [];
  const refused: string[] = [];
  let answered = 0;
  socket.on('message', (data) => {
    timesMs.push(performance.now() - (sentMs[answered] ?? Number.NaN));
    answered += 1;
    const answer = JSON.parse(String(data)) as { ok: boolean; error?: { code: string } };
    if (!answer.ok) refused.push(answer.error?.code ?? '');
  });
  return {
    timesMs,
    refused,
    send(frame: object): void {
      sentMs.push(performance.now());
      socket.send(JSON.stringify(frame));
    },
    /** Waits for the answers that are still owed. */
    async end(): Promise<void> {
      for (const untilMs = performance.now() + 10_000; answered < sentMs.length && performance.now() < untilMs; )
        await new Promise((resolve) => setTimeout(resolve, 20));
      if (answered < sentMs.length) refused.push(`${sentMs.length - answered} without an answer`);
      socket.close();
    },
  };
}
