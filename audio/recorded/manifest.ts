/** `voice.json` of a recorded voice: which file says which words. Written by the page, or by hand. */
import { join } from 'node:path';
import { isPhrase } from '../../server/wire/kept/voices.ts';
import { readOrEmpty, replaceFile } from '../replaceFile.ts';

const MANIFEST = 'voice.json';
const FORMAT = 'by-the-mark/voice@1';
/** A file of the voice's own folder: no way up, no way down, nothing hidden. */
const FILE = /^[\p{L}\p{N}][\p{L}\p{M}\p{N} _.-]{0,99}\.wav$/iu;
/** A few hundred phrases are a lot. */
const LIMIT_BYTES = 1_000_000;

/** The file of each text, in the order in which they were recorded. */
export type Manifest = ReadonlyMap<string, string>;
type ManifestRead = { readonly ok: true; readonly files: Manifest } | { readonly ok: false; readonly why: string };

/** A folder without one has no phrases yet. */
export async function readManifest(folder: string): Promise<ManifestRead> {
  const bytes = await readOrEmpty(join(folder, MANIFEST));
  if (bytes.length === 0) return { ok: true, files: new Map() };
  if (bytes.length > LIMIT_BYTES) return wrong('it is too long');
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return wrong('it is not JSON');
  }
  return checkManifest(value);
}

function checkManifest(value: unknown): ManifestRead {
  if (typeof value !== 'object' || value === null) return wrong('expected an object');
  const { format, phrases } = value as { format?: unknown; phrases?: unknown };
  if (format !== FORMAT) return wrong(`expected "format": "${FORMAT}"`);
  if (typeof phrases !== 'object' || phrases === null || Array.isArray(phrases))
    return wrong('expected "phrases": an object of file names by what they say');
  for (const [text, file] of Object.entries(phrases)) {
    if (!isPhrase(text)) return wrong(`${shown(text)} is not the words of a phrase`);
    if (typeof file !== 'string' || !FILE.test(file))
      return wrong(`${shown(text)}: expected the name of a WAV file in this folder, found ${shown(file)}`);
  }
  return { ok: true, files: new Map(Object.entries(phrases as Record<string, string>)) };
}

export async function writeManifest(folder: string, files: Manifest): Promise<void> {
  const text = JSON.stringify({ format: FORMAT, phrases: Object.fromEntries(files) }, null, 2);
  await replaceFile(join(folder, MANIFEST), new TextEncoder().encode(`${text}\n`));
}

const wrong = (why: string): ManifestRead => ({ ok: false, why: `${MANIFEST}: ${why}` });
const shown = (value: unknown): string => String(JSON.stringify(value)).slice(0, 60);
