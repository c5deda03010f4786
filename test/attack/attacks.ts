/** What one sender could do to the run of another: each attack by name. It begins when its promise settles, and goes on until the process ends. */
import { connect } from 'node:net';
import { outsideClient } from '../kit/client.ts';
import { flood, pageFlood, steadySender } from './sockets.ts';

const SOCKETS = 20;
/** Just within what one sender may send. */
const LEGAL_A_SECOND = 190;

let count = 0;
const next = (): number => {
  count += 1;
  return count;
};
const tilt = (): string => JSON.stringify({ kind: 'tilt', deg: next() % 40 });
const travel = (): string => JSON.stringify({ kind: 'travel', mm: next() / 100 });
const again = (): string => '{"kind":"pedal","gesture":"again"}';

async function begunRun(url: string): Promise<string> {
  const { makeDemoRun, post } = outsideClient(url);
  const { run } = await makeDemoRun();
  await post(`/api/runs/${run}/start`);
  return run;
}
const twenty = (each: () => void): void => {
  for (let n = 0; n < SOCKETS; n += 1) each();
};

/** A body of just under the limit, with as many fields that nobody knows as go into it. */
function bigBody(): string {
  const unknown = Object.fromEntries(Array.from({ length: 280_000 }, (_, n) => [`a${n}`, 0]));
  return JSON.stringify({ job: { format: 'by-the-mark/job@1', ...unknown }, files: {} });
}

/** Asks again and again, so many requests at a time. */
function keepAsking(atOnce: number, ask: () => Promise<unknown>): void {
  const one = async (): Promise<void> => {
    for (;;) {
      await ask().catch(() => new Promise((resolve) => setTimeout(resolve, 50)));
    }
  };
  for (let n = 0; n < atOnce; n += 1) void one();
}

async function withMarks(url: string, spacing: number) {
  const { json } = await outsideClient(url).get('/api/jobs/demo');
  return { ...json, job: { ...json.job, marks: { spacing } } };
}

/** A run with the record of a quarter of an hour: ten sensors beside each other write it in some seconds. */
async function longRun(url: string): Promise<string> {
  const run = await begunRun(url);
  const sensors = await Promise.all(
    Array.from({ length: SENSORS }, () => outsideClient(url).socket(`/feed?run=${run}`)),
  );
  for (let second = 0; second < SECONDS; second += 1) {
    for (const sensor of sensors) for (let n = 0; n < LEGAL_A_SECOND; n += 1) sensor.send(JSON.parse(tilt()));
    await new Promise((resolve) => setTimeout(resolve, 1000));
  }
  for (const sensor of sensors) sensor.close();
  return run;
}
const SENSORS = 10;
const SECONDS = 8;

const readAll = async (address: string): Promise<void> => {
  await (await fetch(address)).arrayBuffer();
};
const post = async (address: string, body: string): Promise<void> => {
  const headers = { 'content-type': 'application/json' };
  await (await fetch(address, { method: 'POST', body, headers })).arrayBuffer();
};

export const ATTACKS = {
  'one socket, tilts': async (url: string) => flood(url, `/feed?run=${await begunRun(url)}`, tilt),
  'one socket, presses': async (url: string) => flood(url, `/feed?run=${await begunRun(url)}`, again),
  'one socket, empty frames': async (url: string) => flood(url, `/feed?run=${await begunRun(url)}`, () => ''),
  'one socket, long frames': async (url: string) => {
    const frame = `{"kind":"tilt","deg":1,"x":"${'x'.repeat(16_000)}"}`;
    flood(url, `/feed?run=${await begunRun(url)}`, () => frame);
  },
  'twenty sockets at 190, counts': async (url: string) => {
    const run = await begunRun(url);
    twenty(() => steadySender(url, `/feed?run=${run}`, LEGAL_A_SECOND, travel));
  },
  'twenty sockets at 190, presses': async (url: string) => {
    const run = await begunRun(url);
    twenty(() => steadySender(url, `/feed?run=${run}`, LEGAL_A_SECOND, again));
  },
  'twenty runs at 190, tilts': async (url: string) => {
    for (let n = 0; n < SOCKETS; n += 1) {
      const run = await begunRun(url);
      steadySender(url, `/feed?run=${run}`, LEGAL_A_SECOND, tilt);
    }
  },
  'twenty sockets flood': async (url: string) => {
    const run = await begunRun(url);
    twenty(() => flood(url, `/feed?run=${run}`, tilt));
  },
  'a page, readings': async (url: string) =>
    pageFlood(url, await begunRun(url), () => ['reading', { kind: 'tilt', deg: next() % 40 }]),
  'a page, joins': async (url: string) => {
    const run = await begunRun(url);
    pageFlood(url, run, () => ['join', { run, role: 'wheel' }]);
  },
  'a page, hearing': async (url: string) => {
    const told = (): object => ({ id: 'x', label: 'x', hearing: next() % 2 === 0 ? 'silent' : 'confirmed' });
    pageFlood(url, await begunRun(url), () => ['hearing', { ...told(), role: 'wheel' }]);
  },
  '280,000 unknown fields': async (url: string) => {
    const body = bigBody();
    keepAsking(2, () => post(`${url}/api/plan`, body));
  },
  'plans of 1,500 marks': async (url: string) => {
    const body = JSON.stringify(await withMarks(url, 1.6));
    keepAsking(4, () => post(`${url}/api/plan`, body));
  },
  'a long record, read': async (url: string) => {
    const run = await longRun(url);
    keepAsking(5, () => readAll(`${url}/api/runs/${run}/journal`));
    keepAsking(5, () => readAll(`${url}/api/runs/${run}/debrief`));
  },
  commands: async (url: string) => {
    const run = await begunRun(url);
    keepAsking(20, () => post(`${url}/api/runs/${run}/stop-feed`, '{}'));
  },
  'slow connections': async (url: string) => {
    const { hostname, port } = new URL(url);
    const slow = (): void => {
      const socket = connect(Number(port), hostname, () => socket.write('POST /api/plan HTTP/1.1\r\nHost: '));
      const timer = setInterval(() => socket.write('x'), 1000);
      socket.on('error', () => {});
      socket.on('close', () => {
        clearInterval(timer);
        setTimeout(slow, 200);
      });
    };
    for (let n = 0; n < 500; n += 1) slow();
  },
} satisfies Readonly<Record<string, (url: string) => Promise<unknown>>>;

export type AttackName = keyof typeof ATTACKS;
export const isAttack = (name: string): name is AttackName => Object.hasOwn(ATTACKS, name);
