/**
 * Damage of every kind, at random places in a killed server's files, and what is told of it: `npm run bench -- damage`.
 * `silent` must be 0. `DAMAGES` sets how many of each kind, `PLACES` which places.
 */
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { mulberry32 } from '../../server/core/numeric/mulberry32.ts';
import { openJournal } from '../../server/journal/openJournal.ts';
import {
  type Acknowledged,
  changeDigit,
  copyJournal,
  cutShort,
  flipBit,
  judge,
  judgeRun,
  killedJournal,
  meddle,
  type Verdict,
} from '../journal/damage.ts';

const OF_EACH = Number(process.env.DAMAGES ?? 200);
const RUNS = 4;

export async function damage(): Promise<void> {
  const dir = mkdtempSync(join(tmpdir(), 'by-the-mark-damage-'));
  const [whole, before, file] = ['whole', 'before', 'journal'].map((name) => join(dir, `${name}.sqlite`)) as [
    string,
    string,
    string,
  ];
  const sequence = Number(process.env.PLACES ?? 1);
  let drawn = 0;
  const random = (): number => mulberry32(sequence, drawn++);
  const below = (n: number): number => Math.floor(random() * n);
  try {
    const acknowledged = killedJournal(whole, { runs: RUNS, settled: 40, inLog: 40 });
    rolledBack(whole, before, acknowledged);
    const run = (): string => `run${below(RUNS)}`;
    const seq = (): number => 1 + below(acknowledged.get('run0')?.length ?? 1);
    const harms: Readonly<Record<string, () => void>> = {
      'a bit in the database': () => flipBit(file, below(statSync(file).size * 8)),
      'a bit in the log': () => flipBit(`${file}-wal`, below(statSync(`${file}-wal`).size * 8)),
      'a bit in the trace': () => flipBit(`${file}-trace`, below(statSync(`${file}-trace`).size * 8)),
      'a bit in the index of the log (shm)': () => {
        writeFileSync(`${file}-shm`, Buffer.alloc(32_768));
        flipBit(`${file}-shm`, below(32_768 * 8));
      },
      'a digit in the database': () => void changeDigit(file, below(1e9)),
      'a digit in the log': () => void changeDigit(`${file}-wal`, below(1e9)),
      'the database cut short': () => cutShort(file, random()),
      'the log cut short': () => cutShort(`${file}-wal`, random()),
      'the trace cut short': () => cutShort(`${file}-trace`, random()),
      'the log gone': () => rmSync(`${file}-wal`),
      'a page of zeros in the database': () => zeros(file, below(Math.floor(statSync(file).size / 4096)) * 4096, 4096),
      'a sector of zeros in the log': () => zeros(`${file}-wal`, below(statSync(`${file}-wal`).size - 512), 512),
      'a line taken out': () => meddle(file, `DELETE FROM lines WHERE run = '${run()}' AND seq = ${seq()}`),
      'an end taken out': () => meddle(file, `DELETE FROM lines WHERE run = '${run()}' AND seq >= ${seq()}`),
      'two lines exchanged': () => exchange(file, run(), seq(), seq()),
      'a line of another run': () => {
        const [one, other, at] = [run(), run(), seq()];
        meddle(
          file,
          `UPDATE lines SET entry = (SELECT entry FROM lines WHERE run = '${other}' AND seq = ${at} + 1),
          sum = (SELECT sum FROM lines WHERE run = '${other}' AND seq = ${at} + 1) WHERE run = '${one}' AND seq = ${at}`,
        );
      },
      'a run taken out': () => {
        const one = run();
        meddle(file, `DELETE FROM lines WHERE run = '${one}'; DELETE FROM runs WHERE run = '${one}'`);
      },
      'database and log from before': () => {
        writeFileSync(file, readFileSync(before));
        if (existsSync(`${before}-wal`)) writeFileSync(`${file}-wal`, readFileSync(`${before}-wal`));
      },
      'the database from before, the log of now': () => writeFileSync(file, readFileSync(before)),
      'the trace from before': () => writeFileSync(`${file}-trace`, readFileSync(`${before}-trace`)),
      'the trace gone': () => rmSync(`${file}-trace`),
      'killed, and nothing else': () => {},
    };
    const sum = { told: 0, harmless: 0, silent: 0 };
    let ofHarmed = 0;
    console.log(`${'damage'.padEnd(42)} told  harmless  silent`);
    for (const [name, harm] of Object.entries(harms)) {
      const counts: Record<Verdict, number> = { told: 0, harmless: 0, silent: 0 };
      for (let nth = 0; nth < OF_EACH; nth += 1) {
        copyJournal(whole, file);
        harm();
        const verdict = judge(file, acknowledged);
        counts[verdict] += 1;
        sum[verdict] += 1;
        if (verdict === 'told') ofHarmed += unharmedRuns(file, acknowledged);
        rmSync(`${file}-shm`, { force: true });
      }
      console.log(`${name.padEnd(42)} ${row(counts)}`);
    }
    console.log(`${'all'.padEnd(42)} ${row(sum)}`);
    console.log(
      `where damage was told, runs of ${RUNS} that were whole all the same: ${(ofHarmed / sum.told).toFixed(2)}`,
    );
    if (sum.silent > 0) process.exitCode = 1;
  } finally {
    rmSync(dir, { recursive: true });
  }
}

const row = ({ told, harmless, silent }: Record<Verdict, number>): string =>
  `${`${told}`.padStart(4)}  ${`${harmless}`.padStart(8)}  ${`${silent}`.padStart(6)}`;

function zeros(path: string, at: number, bytes: number): void {
  const all = readFileSync(path);
  all.fill(0, at, at + bytes);
  writeFileSync(path, all);
}

function exchange(file: string, run: string, one: number, other: number): void {
  meddle(
    file,
    `UPDATE lines SET seq = 900000 WHERE run = '${run}' AND seq = ${one}; UPDATE lines SET seq = ${one} WHERE run = '${run}' AND seq = ${other};
     UPDATE lines SET seq = ${other} WHERE run = '${run}' AND seq = 900000`,
  );
}

/** The files as they stood some lines earlier: a copy that somebody put back. */
function rolledBack(whole: string, before: string, acknowledged: Acknowledged): void {
  copyJournal(whole, before);
  const now = `${whole}-now.sqlite`;
  copyJournal(whole, now);
  const journal = openJournal({ file: now });
  for (const [run, lines] of acknowledged) {
    journal.append(run, lines.length, [{ kind: 'resumed', atMs: 1e6 }]);
    (acknowledged as Map<string, unknown>).set(run, [...journal.lines(run)]);
  }
  copyJournal(now, whole);
  journal.close();
}

function unharmedRuns(file: string, acknowledged: Acknowledged): number {
  try {
    const journal = openJournal({ file, waitMs: 0 });
    try {
      return [...acknowledged].filter(([run, lines]) => judgeRun(journal, run, lines) === 'harmless').length;
    } finally {
      journal.close();
    }
  } catch {
    return 0;
  }
}
