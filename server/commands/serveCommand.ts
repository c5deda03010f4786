/** `serve`: the server, until it is told to end. */
import { constants } from 'node:fs';
import { access, mkdir } from 'node:fs/promises';
import { JournalError, type JournalErrorCode } from '../journal/journalError.ts';
import { dataDirOf } from './door/dataDir.ts';
import type { Options } from './door/options.ts';
import { readJob } from './door/readJob.ts';
import type { Terminal } from './door/terminal.ts';
import { UserMistake } from './door/userMistake.ts';

const DEFAULT_PORT = 4260;
const LOOPBACK = /^(localhost|127\.0\.0\.1|::1)$/;
/** A connection that will not end must not keep the process from ending. */
const CLOSING_LIMIT_MS = 1800;

export interface ServeAsk {
  readonly port: number;
  readonly host: string;
  readonly lan: boolean;
  readonly loudspeaker: boolean;
  readonly dataDir: string;
  readonly job?: string;
}

/** Settles when the server has been told to end (SIGINT, SIGTERM) and has done so. */
export async function serve(options: Options, { out, err }: Terminal): Promise<void> {
  const ask = readServeOptions(options);
  const job = ask.job === undefined ? undefined : await readJob(ask.job);
  await prepareDataDir(ask.dataDir);
  // From here on, so that an early Ctrl-C does not leave a half-started server behind.
  const told = untilTold();
  const { createApp } = await import('../app.ts');
  const app = await createApp({
    dataDir: ask.dataDir,
    lan: ask.lan,
    loudspeaker: ask.loudspeaker,
    host: ask.host,
    port: ask.port,
    ...(job === undefined ? {} : { job: { name: job.name, title: job.title, job: job.job, files: job.files } }),
  }).catch((error: unknown) => {
    throw startMistake(error, ask) ?? error;
  });
  err.write(whereToLook(ask, app));
  out.write(`ready ${app.url}\n`);
  if (app.consoleUrl !== undefined) out.write(`console ${app.consoleUrl}\n`);
  await told;
  await Promise.race([app.close(), new Promise((done) => setTimeout(done, CLOSING_LIMIT_MS).unref())]);
}

/** The options as they are meant; throws UserMistake. */
export function readServeOptions(options: Options): ServeAsk {
  const lan = options.lan === true;
  const host = String(options.host ?? (lan ? '0.0.0.0' : '127.0.0.1')).replace(/^\[(.*)\]$/, '$1');
  if (!lan && !LOOPBACK.test(host))
    throw new UserMistake([
      `serve: --host ${host} is open to others than this machine: add --lan, which asks everyone for a key, or leave --host out`,
    ]);
  const portText = String(options.port ?? DEFAULT_PORT);
  const port = Number(portText);
  if (!/^\d+$/.test(portText) || port > 65535)
    throw new UserMistake([`serve: --port ${portText}: wanted a number from 0 (any free one) to 65535`]);
  const dataDir = dataDirOf(options);
  const loudspeaker = options.loudspeaker === true;
  return { port, host, lan, loudspeaker, dataDir, ...(options.job === undefined ? {} : { job: String(options.job) }) };
}

async function prepareDataDir(dataDir: string): Promise<void> {
  try {
    await mkdir(dataDir, { recursive: true });
    await access(dataDir, constants.R_OK | constants.W_OK | constants.X_OK);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const what = code === 'EEXIST' || code === 'ENOTDIR' ? 'is not a folder' : `cannot be written to (${code})`;
    throw new UserMistake([`serve: the data folder ${dataDir} ${what}: name another with --data`]);
  }
}

/** What kept the server from starting, if it is something that the user can mend. */
function startMistake(error: unknown, { host, port, dataDir }: ServeAsk): UserMistake | undefined {
  const { code, message } = error as NodeJS.ErrnoException;
  const told: Readonly<Record<string, string>> = {
    EADDRINUSE: `port ${port} is in use: end what uses it, or choose another with --port`,
    EADDRNOTAVAIL: `--host ${host} is no address of this machine`,
    ENOTFOUND: `--host ${host} is no address of this machine`,
  };
  if (error instanceof Error && error.name === 'NoPlayer')
    return new UserMistake([
      'serve: --loudspeaker: this machine has no paplay, aplay, afplay or PowerShell to play sounds by: install one (on Debian: apt install alsa-utils), or leave --loudspeaker out',
    ]);
  if (error instanceof JournalError)
    return MENDABLE.includes(error.code)
      ? new UserMistake([`serve: the data folder ${dataDir}: ${message}`])
      : undefined;
  const line =
    code === 'EACCES' && port > 0 && port < 1024
      ? `port ${port} is kept for the system: choose one over 1023`
      : told[code ?? ''];
  return line === undefined ? undefined : new UserMistake([`serve: ${line}`]);
}

/** Troubles with the journal that another data folder, a backup, room or other rights would end. */
const MENDABLE: readonly JournalErrorCode[] = [
  'in-use',
  'too-new',
  'not-a-journal',
  'cannot-open',
  'read-only',
  'full',
  'disk',
  'damaged',
];

interface Address {
  readonly url: string;
  readonly consoleUrl?: string;
  readonly player?: string;
}
function whereToLook({ lan, dataDir }: ServeAsk, { url, consoleUrl, player }: Address): string {
  const open = lan
    ? [
        `By the Mark is open to the shop's network. Open the sawyer's console on this machine: ${consoleUrl ?? url}`,
        "The certificate is this server's own: the browser warns of it once on each device.",
        'Whoever has the console address can command the run: do not pass it on. Devices get their own codes at the console.',
      ]
    : [`By the Mark is running, for this machine only. Open in a browser: ${url}/`];
  const sound =
    player === undefined
      ? []
      : [`This machine's own loudspeaker speaks the calls, by ${player}. Play its test words on the sawyer page.`];
  return `${[...open, ...sound, `What it keeps is in ${dataDir}. To end it: Ctrl-C.`, 'It advises; it never drives the saw, and it is no emergency stop.'].join('\n')}\n`;
}

/** Settles at the first SIGINT or SIGTERM; a second one ends the process at once, as it always does. */
const untilTold = (): Promise<void> =>
  new Promise((told) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => told());
  });
