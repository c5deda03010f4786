/** The voices that the yard has recorded: `<dataDir>/voices/NAME/`, one WAV a phrase and a `voice.json` that says which is which. */
import { mkdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { RecordingFault, VoiceHere } from '../../server/wire/kept/voices.ts';
import type { RenderedClip } from '../clipFolder.ts';
import { SAMPLE_RATE_HZ } from '../pcm/format.ts';
import { replaceFile } from '../replaceFile.ts';
import { type Manifest, readManifest, writeManifest } from './manifest.ts';
import { clipKeyOf, fileNameOf, readRecordingFile } from './recordingFile.ts';
import { openStudio, type Studio } from './studio.ts';
import { openVoiceShelves, type Shelf } from './voiceShelves.ts';

interface RecordedVoices {
  list(): Promise<readonly VoiceHere[]>;
  /** Every phrase of a voice, prepared, or what is wrong with it. Undefined where there is no such voice. */
  phrases(name: string): Promise<RecordedPhrases | undefined>;
  /** The clips of these texts in their order, or what is missing of them: all in one voice or none. */
  render(name: string, texts: readonly string[]): Promise<RecordedRender | undefined>;
  /** Keeps a recording, in the place of an earlier one of these words; a voice that is not there is begun. */
  keep(name: string, text: string, wav: Uint8Array): Promise<Kept>;
  /** Takes away the voice, its recordings and the clips made of them. False where there is none. */
  forget(name: string): Promise<boolean>;
  /** Absolute path of a finished clip that is there, of whichever voice. */
  pathOf(key: string): Promise<string | undefined>;
  /** The same, prepared anew where it is gone or damaged; undefined where the recording is no longer what it was made of. */
  mend(name: string, key: string, text: string): Promise<string | undefined>;
  close(): Promise<void>;
}

export type PhraseFound =
  | { readonly ok: true; readonly clip: RenderedClip }
  | { readonly ok: false; readonly text: string; readonly fault: RecordingFault };
interface RecordedPhrases {
  /** As its folder is called. */
  readonly name: string;
  /** The manifest's fault, if it cannot be read. */
  readonly why: string | null;
  readonly phrases: readonly PhraseFound[];
}
/** `fault` null: was never recorded. */
export interface Missing {
  readonly text: string;
  readonly fault: RecordingFault | null;
}
type RecordedRender =
  | { readonly ok: true; readonly name: string; readonly clips: readonly RenderedClip[] }
  | { readonly ok: false; readonly name: string; readonly why: string | null; readonly missing: readonly Missing[] };
type Kept =
  | { readonly ok: true; readonly name: string; readonly clip: RenderedClip }
  | { readonly ok: false; readonly fault: RecordingFault }
  | { readonly ok: false; readonly why: string };

class Refused extends Error {
  readonly fault: RecordingFault;
  constructor(fault: RecordingFault) {
    super(fault.message);
    this.fault = fault;
  }
}

export function openRecordedVoices(dataDir: string, studio: Studio = openStudio()): RecordedVoices {
  const shelves = openVoiceShelves(resolve(dataDir, 'voices'));
  /** One change at a time, so that no manifest is written over another. */
  let lastChange: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(change: () => Promise<T>): Promise<T> => {
    const done = lastChange.then(change, change);
    lastChange = done.catch(() => {});
    return done;
  };

  async function prepared({ clips }: Shelf, text: string, wav: Uint8Array): Promise<RenderedClip> {
    return clips.clip(clipKeyOf(text, wav), text, async () => {
      const made = await studio.prepare(text, wav);
      if (!made.ok) throw new Refused(made.fault);
      return made.samples;
    });
  }

  async function phraseOf(at: Shelf, text: string, file: string): Promise<PhraseFound> {
    try {
      return { ok: true, clip: await prepared(at, text, await readRecordingFile(join(at.folder, file))) };
    } catch (cause) {
      if (cause instanceof Refused) return { ok: false, text, fault: cause.fault };
      throw cause;
    }
  }

  return {
    async list() {
      const found: VoiceHere[] = [];
      for (const { name, folder } of await shelves.all()) {
        const read = await readManifest(folder);
        const engine = read.ok ? 'recorded here' : `recorded here; ${read.why}`;
        const phrases = read.ok ? read.files.size : 0;
        found.push({ name, kind: 'recorded', language: null, engine, sampleRateHz: SAMPLE_RATE_HZ, phrases });
      }
      return found;
    },

    async phrases(name) {
      const at = await shelves.find(name);
      if (at === undefined) return undefined;
      const read = await readManifest(at.folder);
      if (!read.ok) return { name: at.name, why: read.why, phrases: [] };
      const phrases: PhraseFound[] = [];
      for (const [text, file] of read.files) phrases.push(await phraseOf(at, text, file));
      return { name: at.name, why: null, phrases };
    },

    async render(name, texts) {
      const at = await shelves.find(name);
      if (at === undefined) return undefined;
      const read = await readManifest(at.folder);
      if (!read.ok) return { ok: false, name: at.name, why: read.why, missing: [] };
      const clips: RenderedClip[] = [];
      const missing: Missing[] = [];
      for (const text of texts) {
        const found = await wanted(at, text, read.files);
        if (found.ok) clips.push(found.clip);
        else missing.push({ text, fault: found.fault });
      }
      return missing.length === 0
        ? { ok: true, name: at.name, clips }
        : { ok: false, name: at.name, why: null, missing };
    },

    keep: (name, text, wav) =>
      inTurn(async () => {
        const known = await shelves.find(name);
        const at = known ?? shelves.named(name);
        const read = await readManifest(at.folder);
        if (!read.ok) return { ok: false, why: read.why };
        // Looked at before anything is written: a recording that is refused leaves no voice behind.
        const made = await studio.prepare(text, wav);
        if (!made.ok) return { ok: false, fault: made.fault };
        try {
          await mkdir(at.folder, { recursive: true });
          const clip = await at.clips.clip(clipKeyOf(text, wav), text, () => Promise.resolve(made.samples));
          const file = read.files.get(text) ?? fileNameOf(text);
          await replaceFile(join(at.folder, file), wav);
          await writeManifest(at.folder, new Map([...read.files, [text, file]]));
          return { ok: true, name: at.name, clip };
        } catch (error) {
          // A full disk must not leave a voice behind that has nothing to say.
          if (known === undefined) await shelves.takeAway(at);
          throw error;
        }
      }),

    forget: (name) =>
      inTurn(async () => {
        const at = await shelves.find(name);
        if (at === undefined) return false;
        await shelves.takeAway(at);
        return true;
      }),

    async pathOf(key) {
      for (const { clips } of await shelves.all()) {
        const path = clips.pathOf(key);
        if (path !== undefined) return path;
      }
      return undefined;
    },

    async mend(name, key, text) {
      const at = await shelves.find(name);
      if (at === undefined) return undefined;
      const read = await readManifest(at.folder);
      const file = read.ok ? read.files.get(text) : undefined;
      const wav = file === undefined ? undefined : await readRecordingFile(join(at.folder, file));
      try {
        if (wav !== undefined && clipKeyOf(text, wav) === key) await prepared(at, text, wav);
        // A take of before, whose recording has been replaced since, is still good if it is whole.
        else await at.clips.clip(key, text, () => Promise.reject(new Refused(GONE)));
      } catch (cause) {
        if (cause instanceof Refused) return undefined;
        throw cause;
      }
      return at.clips.pathOf(key);
    },

    close: () => studio.close(),
  };

  async function wanted(
    at: Shelf,
    text: string,
    files: Manifest,
  ): Promise<
    { readonly ok: true; readonly clip: RenderedClip } | { readonly ok: false; readonly fault: RecordingFault | null }
  > {
    const file = files.get(text);
    return file === undefined ? { ok: false, fault: null } : phraseOf(at, text, file);
  }
}

const GONE: RecordingFault = { code: 'not-a-recording', message: 'The recording of this clip has been replaced.' };
