/**
 * An ear that knows nothing of us: the recogniser pocketsphinx with its US English model, as Debian brings them, which takes what
 * it hears for one of a closed list of texts. Sounds are 16,000 samples a second.
 */
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { toInt16 } from '../../../audio/pcm/format.ts';

export const EAR_RATE_HZ = 16_000;
const COMMAND = '/usr/bin/pocketsphinx_batch';
const MODEL = '/usr/share/pocketsphinx/model/en-us';

/** What to do where there is no such ear; undefined where there is. */
export function earMissing(): string | undefined {
  const isThere = [COMMAND, join(MODEL, 'en-us'), join(MODEL, 'cmudict-en-us.dict')].every((path) => existsSync(path));
  return isThere
    ? undefined
    : 'The recogniser pocketsphinx is not here. On Debian: apt-get install pocketsphinx pocketsphinx-en-us';
}

/** The words as the recogniser spells them: "thirty-four," is "thirty four". */
export const heardAs = (text: string): string => (text.toLowerCase().match(/[a-z']+/g) ?? []).join(' ');

/** For each sound the text of `texts` that it is taken for, spelled by `heardAs`; '' where it is taken for none. */
export async function hear(sounds: readonly Float64Array[], texts: readonly string[]): Promise<readonly string[]> {
  const folder = await mkdtemp(join(tmpdir(), 'ear-'));
  try {
    const names = sounds.map((_, i) => String(i).padStart(5, '0'));
    for (const [i, name] of names.entries())
      await writeFile(join(folder, `${name}.raw`), toInt16(sounds[i] ?? new Float64Array(0)));
    await writeFile(join(folder, 'list'), `${names.join('\n')}\n`);
    await writeFile(join(folder, 'texts.gram'), grammarOf(texts));
    await promisify(execFile)(COMMAND, argumentsFor(folder), { maxBuffer: 2 ** 26 });
    const heard = new Map((await readFile(join(folder, 'heard'), 'utf8')).split('\n').map(parseLine));
    return names.map((name) => heard.get(name) ?? '');
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function grammarOf(texts: readonly string[]): string {
  const ways = [...new Set(texts.map(heardAs))];
  return `#JSGF V1.0;\ngrammar texts;\npublic <text> = ${ways.join(' | ')};\n`;
}

const argumentsFor = (folder: string): string[] =>
  Object.entries({
    hmm: join(MODEL, 'en-us'),
    dict: join(MODEL, 'cmudict-en-us.dict'),
    jsgf: join(folder, 'texts.gram'),
    ctl: join(folder, 'list'),
    cepdir: folder,
    cepext: '.raw',
    adcin: 'yes',
    hyp: join(folder, 'heard'),
    // Each sound by itself: what came before must not tune the ear for what comes after.
    cmn: 'batch',
    remove_noise: 'yes',
    remove_silence: 'yes',
    logfn: '/dev/null',
  }).flatMap(([name, value]) => [`-${name}`, value]);

/** "one two point five (00017 -8123)" */
function parseLine(line: string): readonly [string, string] {
  const [, text = '', name = ''] = /^(.*)\((\S+) \S+\)$/.exec(line) ?? [];
  return [name, text.trim()];
}
