/** The web room on a real socket with small runs behind it, and what tests use to speak with it. */
import { mkdir, writeFile } from 'node:fs/promises';
import { request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import { request as httpsRequest } from 'node:https';
import { join } from 'node:path';
import { io, type Socket } from 'socket.io-client';
import { onTestFinished } from 'vitest';
import { WebSocket } from 'ws';
import { makePaper } from '../../server/paper/makePaper.ts';
import { lanAccess } from '../../server/web/access/lanAccess.ts';
import { openAccess } from '../../server/web/access/openAccess.ts';
import { createWeb, type Web } from '../../server/web/createWeb.ts';
import { createTurns } from '../../server/web/fairTurns.ts';
import type { WebPorts } from '../../server/web/webPorts.ts';
import type { PageToServer, ServerToPage } from '../../server/wire/message/messages.ts';
import { readBody } from '../../server/wire/request/bodies.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { smallCrew } from './smallCrew.ts';
import { type SmallRun, smallPlan, smallRun } from './smallRun.ts';
import { smallVoices } from './smallVoices.ts';

export interface WebUnderTest {
  readonly web: Web;
  readonly url: string;
  readonly dataDir: string;
  readonly run: SmallRun;
  readonly reported: unknown[];
  readonly consoleKey: string | null;
  /** The certificate to be trusted, with `lan`. */
  readonly ca: string | undefined;
  ask(path: string, init?: AskInit): Promise<Told>;
  raw(path: string, headers?: Record<string, string>): RawClient;
  page(options?: {
    headers?: Record<string, string>;
    query?: Record<string, string>;
  }): Socket<ServerToPage, PageToServer>;
}

export interface AskInit {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: unknown;
  /** Sent as it is, in place of `body`. */
  readonly text?: string;
}
export interface Told {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
  // biome-ignore lint/suspicious/noExplicitAny: an answer is looked at field by field, and a wrong field fails the test.
  readonly json: any;
}

export async function openWeb({ lan = false, pages = true, marks = 4 } = {}): Promise<WebUnderTest> {
  const dataDir = freeDataDir();
  const pagesDir = join(dataDir, 'pages');
  if (pages) await makePages(pagesDir);
  const clip = join(dataDir, 'abc.wav');
  await writeFile(clip, 'RIFF....WAVE');
  const run = smallRun('r1', marks);
  const reported: unknown[] = [];
  const access = lan ? await lanAccess(dataDir) : openAccess();
  const web = createWeb({
    ports: portsOf(run, clip),
    access,
    turns: createTurns((error) => reported.push(error)),
    pagesDir,
    version: '1.2.3',
    report: (e) => reported.push(e),
  });
  const url = await web.listen(0, '127.0.0.1');
  const ca = access.tls?.cert;
  const sockets: { close(): unknown }[] = [];
  onTestFinished(async () => {
    for (const socket of sockets) socket.close();
    await web.close();
  });
  return {
    web,
    url,
    dataDir,
    run,
    reported,
    consoleKey: access.consoleKey,
    ca,
    ask: (path, init) => ask(`${url}${path}`, { ...init, ca }),
    raw(path, headers = {}) {
      const socket = new RawClient(`${url.replace('http', 'ws')}${path}`, headers, ca);
      sockets.push(socket);
      return socket;
    },
    page({ headers = {}, query = {} } = {}) {
      const socket: Socket<ServerToPage, PageToServer> = io(url, {
        transports: ['websocket'],
        reconnection: false,
        forceNew: true,
        extraHeaders: headers,
        query,
        ...(ca === undefined ? {} : { ca }),
      });
      sockets.push(socket);
      return socket;
    },
  };
}

function portsOf(run: SmallRun, clip: string): WebPorts {
  const bad = {
    ok: false,
    problems: [{ code: 'missing', at: { field: 'shape' }, found: 'nothing', wanted: 'a shape' }],
  } as const;
  const isBad = (job: unknown): boolean => (job as { bad?: boolean }).bad === true;
  return {
    plan: async ({ job }) => {
      if ((job as { crash?: boolean }).crash) throw new Error('a secret of the house: /root/place');
      return isBad(job) ? bad : { ok: true, plan: smallPlan(3) };
    },
    readBody: async (name, bytes) => readBody(name, bytes) as never,
    planText: async ({ job }) => {
      if ((job as { crash?: boolean }).crash) throw new Error('a secret of the house: /root/place');
      return isBad(job) ? bad : { ok: true, text: JSON.stringify(smallPlan(3)) };
    },
    print: makePaper,
    makeAgain: async () => ({ ok: true, run }),
    makeRun: async ({ job }) => (isBad(job) ? bad : { ok: true, run }),
    run: (id) => (id === run.run ? run : undefined),
    linesOf: (id) => (id === run.run ? run.lines() : undefined),
    runs: () => Promise.resolve([run.view()]),
    jobs: () => [{ name: 'demo', title: 'Demo' }],
    job: (name) => (name === 'demo' ? { job: { format: 'x' }, files: {} } : undefined),
    clipFile: async (key) => (key === 'abc.wav' ? clip : undefined),
    voices: smallVoices(),
    loudspeaker: null,
    crew: smallCrew(run.run),
    sawn: { save: async () => bad, trial: async () => bad, correct: async () => bad },
  };
}

async function makePages(folder: string): Promise<void> {
  await mkdir(join(folder, 'assets'), { recursive: true });
  for (const page of ['index', 'sawyer', 'wheel', 'codes', 'record', 'voice', 'join'])
    await writeFile(
      join(folder, `${page}.html`),
      `<html><script src="/assets/${page}-1a2b.js"></script>${page} page</html>`,
    );
  await writeFile(join(folder, 'assets', 'join-1a2b.js'), '1;');
  await writeFile(join(folder, 'assets', 'wheel-1a2b.js'), '2;');
}

export function ask(
  url: string,
  { method = 'GET', headers = {}, body, text, ca }: AskInit & { ca?: string | undefined } = {},
) {
  const sent = text ?? (body === undefined ? undefined : JSON.stringify(body));
  return new Promise<Told>((resolve, reject) => {
    const req = (url.startsWith('https') ? httpsRequest : httpRequest)(url, {
      method,
      agent: false,
      headers: { ...(body === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
      ...(ca === undefined ? {} : { ca }),
    });
    req.on('error', reject);
    req.on('response', (res) => {
      const parts: Buffer[] = [];
      res.on('data', (part: Buffer) => parts.push(part));
      res.on('error', reject);
      res.on('end', () => {
        const told = Buffer.concat(parts).toString();
        const isJson = String(res.headers['content-type']).startsWith('application/json') && told !== '';
        resolve({
          status: res.statusCode ?? 0,
          headers: res.headers,
          text: told,
          json: isJson ? JSON.parse(told) : undefined,
        });
      });
    });
    req.end(sent);
  });
}

/** A raw socket that keeps what it is told until it is asked for. */
export class RawClient {
  // biome-ignore lint/suspicious/noExplicitAny: as above.
  readonly told: any[] = [];
  readonly socket: WebSocket;
  readonly opened: Promise<void>;
  /** Settles with the close code. */
  readonly closed: Promise<number>;
  #wake: (() => void)[] = [];

  constructor(url: string, headers: Record<string, string>, ca: string | undefined) {
    this.socket = new WebSocket(url, { headers, ...(ca === undefined ? {} : { ca }) });
    this.opened = new Promise((resolve, reject) => {
      this.socket.once('open', () => resolve());
      this.socket.once('error', reject);
    });
    this.opened.catch(() => {});
    this.closed = new Promise((resolve) => this.socket.once('close', resolve));
    this.socket.on('error', () => {});
    this.socket.on('message', (data) => {
      this.told.push(JSON.parse(data.toString()));
      for (const wake of this.#wake.splice(0)) wake();
    });
  }

  send(frame: unknown): void {
    this.socket.send(typeof frame === 'string' || Buffer.isBuffer(frame) ? frame : JSON.stringify(frame));
  }

  /** The first thing told that fits, waiting for it if need be; it and all before it are taken out. */
  // biome-ignore lint/suspicious/noExplicitAny: as above.
  async next(fits: (told: any) => boolean = () => true): Promise<any> {
    for (;;) {
      const at = this.told.findIndex(fits);
      if (at !== -1) return this.told.splice(0, at + 1)[at];
      await new Promise<void>((resolve) => this.#wake.push(resolve));
    }
  }

  async answers(count: number): Promise<unknown[]> {
    const taken: unknown[] = [];
    while (taken.length < count) taken.push(await this.next());
    return taken;
  }

  /** Status of the HTTP answer to a refused upgrade. */
  async refusedWith(): Promise<number> {
    const error = await this.opened.then(
      () => undefined,
      (reason: Error) => reason,
    );
    return Number(/server response: (\d+)/.exec(error?.message ?? '')?.[1] ?? 0);
  }

  close(): void {
    this.socket.terminate();
  }
}
