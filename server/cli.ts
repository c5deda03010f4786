/** The commands. Each loads the rooms that it needs, and no others. */
import { type ParseArgsConfig, parseArgs } from 'node:util';
import type { Options } from './commands/door/options.ts';
import type { Terminal } from './commands/door/terminal.ts';
import { UserMistake } from './commands/door/userMistake.ts';
import { PAPERS, type PaperName } from './wire/request/papers.ts';

const USAGE = `By the Mark: call-outs for sawing changing bevels

  by-the-mark serve [--job FILE] [--port N] [--host H] [--data DIR] [--lan] [--loudspeaker]
      starts the server; --lan opens it to the shop's network, with keys; --loudspeaker lets this machine speak the calls too
  by-the-mark plan JOB [--json]
      the plan of a job file, as a table or as JSON
  by-the-mark boat JOB [--at LIST] [--json]
      the bevels of all frames that the table of offsets gives, at the places of the list (or of the job)
  by-the-mark strip JOB --out FILE.pdf [--paper a4|letter|roll62|tape24]
      the mark strip at full size, for a lath or for tape
  by-the-mark sheet | which-way | board | test-cuts JOB --out FILE.pdf [--paper a4|letter]
      the schedule with drawings and cards; which way round; the bevel board; test cuts for the readout table
  by-the-mark record RUN --out FILE.pdf [--paper a4|letter] [--data DIR]
      the record of a run that was kept
  by-the-mark trial JOB [--whole] [--out FILE.json] [--json]
      the job's trial on cheap stock, as a job of its own; with --measured FILE.csv [--feed M_PER_MIN] [--error DEG]: what it told
  by-the-mark save JOB --measured FILE.csv [--half outer|inner] [--error DEG] [--from L] [--to L] [--thinnest L] [--json]
      whether a sawn piece that came out wrong can be saved: the best shift, what to plane and where, or scrap
  by-the-mark simulate JOB [--feed M_PER_MIN] [--routine NAME] [--seed N] [--runs N] [--json]
      whole runs with a modelled feed and a modelled tilt hand, routine beside routine
  by-the-mark voices [--data DIR]
      which voices are here

Exit codes: 0 done, 2 something given is wrong, 1 anything else.
`;

interface Command {
  readonly options: NonNullable<ParseArgsConfig['options']>;
  /** What must be given beside the options, by name. */
  readonly wants: readonly string[];
  run(given: readonly string[], options: Options, terminal: Terminal): Promise<void>;
}

/** A paper of a job. */
const paperCommand = (name: PaperName): Command => ({
  options: { out: { type: 'string' }, paper: { type: 'string' } },
  wants: ['JOB'],
  run: async ([job = ''], options, terminal) =>
    (await import('./commands/paperCommand.ts')).paper(name, job, options, terminal),
});

const COMMANDS: Readonly<Record<string, Command>> = {
  serve: {
    options: {
      job: { type: 'string' },
      port: { type: 'string' },
      host: { type: 'string' },
      data: { type: 'string' },
      lan: { type: 'boolean' },
      loudspeaker: { type: 'boolean' },
    },
    wants: [],
    run: async (_given, options, terminal) => (await import('./commands/serveCommand.ts')).serve(options, terminal),
  },
  plan: {
    options: { json: { type: 'boolean' } },
    wants: ['JOB'],
    run: async ([job = ''], options, terminal) =>
      (await import('./commands/planCommand.ts')).plan(job, options.json === true, terminal),
  },
  boat: {
    options: { at: { type: 'string' }, json: { type: 'boolean' } },
    wants: ['JOB'],
    run: async ([job = ''], options, terminal) =>
      (await import('./commands/boatCommand.ts')).boat(job, options, terminal),
  },
  ...Object.fromEntries(PAPERS.map((name) => [name, paperCommand(name)])),
  record: {
    options: { out: { type: 'string' }, paper: { type: 'string' }, data: { type: 'string' } },
    wants: ['RUN'],
    run: async ([run = ''], options, terminal) =>
      (await import('./commands/recordCommand.ts')).record(run, options, terminal),
  },
  trial: {
    options: {
      whole: { type: 'boolean' },
      out: { type: 'string' },
      measured: { type: 'string' },
      feed: { type: 'string' },
      error: { type: 'string' },
      json: { type: 'boolean' },
    },
    wants: ['JOB'],
    run: async ([job = ''], options, terminal) =>
      (await import('./commands/trialCommand.ts')).trial(job, options, terminal),
  },
  save: {
    options: {
      measured: { type: 'string' },
      half: { type: 'string' },
      error: { type: 'string' },
      from: { type: 'string' },
      to: { type: 'string' },
      thinnest: { type: 'string' },
      json: { type: 'boolean' },
    },
    wants: ['JOB'],
    run: async ([job = ''], options, terminal) =>
      (await import('./commands/saveCommand.ts')).save(job, options, terminal),
  },
  simulate: {
    options: {
      feed: { type: 'string' },
      routine: { type: 'string' },
      seed: { type: 'string' },
      runs: { type: 'string' },
      json: { type: 'boolean' },
    },
    wants: ['JOB'],
    run: async ([job = ''], options, terminal) =>
      (await import('./commands/simulateCommand.ts')).simulate(job, options, terminal),
  },
  voices: {
    options: { data: { type: 'string' } },
    wants: [],
    run: async (_given, options, terminal) => (await import('./commands/voicesCommand.ts')).voices(options, terminal),
  },
};

/** Runs one command to its end and gives the exit code. */
export async function cli(args: readonly string[], terminal: Terminal): Promise<0 | 1 | 2> {
  try {
    await runCommand(args, terminal);
    return 0;
  } catch (error) {
    if (error instanceof UserMistake) {
      for (const line of error.lines) terminal.err.write(`${line}\n`);
      return 2;
    }
    terminal.err.write(
      `this should not have happened: ${error instanceof Error ? (error.stack ?? error.message) : error}\n`,
    );
    return 1;
  }
}

async function runCommand(args: readonly string[], terminal: Terminal): Promise<void> {
  const [name, ...rest] = args;
  if (name === '--help' || name === '-h' || name === 'help') {
    terminal.out.write(USAGE);
    return;
  }
  const known = Object.keys(COMMANDS).join(', ');
  if (name === undefined) throw new UserMistake([`no command given: one of ${known}, or --help`]);
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (command === undefined)
    throw new UserMistake([`there is no command ${JSON.stringify(name)}: one of ${known}, or --help`]);
  if (rest.includes('--help')) {
    terminal.out.write(USAGE);
    return;
  }
  const { values, positionals } = read(name, command, rest);
  await command.run(positionals, values, terminal);
}

function read(name: string, { options, wants }: Command, args: string[]) {
  const parsed = (() => {
    try {
      return parseArgs({ args, options, allowPositionals: true, strict: true });
    } catch (error) {
      // Node's own words name the option; what follows its first sentence is advice for programmers.
      const [what] = String((error as Error).message).split(/[.\n]/);
      const has = Object.keys(options).map((option) => `--${option}`);
      throw new UserMistake([
        `${name}: ${what}; ${has.length === 0 ? 'it has no options' : `it has ${has.join(', ')}`}`,
      ]);
    }
  })();
  const { positionals } = parsed;
  const missing = wants[positionals.length];
  if (missing !== undefined) throw new UserMistake([`${name}: no ${missing} given`]);
  const extra = positionals[wants.length];
  if (extra !== undefined) throw new UserMistake([`${name}: did not expect ${JSON.stringify(extra)}`]);
  return parsed;
}
