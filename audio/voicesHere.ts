/** Who can speak here: the embedded voice, the machine's own, and the ones that the yard has recorded. */
import { resolve } from 'node:path';
import type { Problem } from '../server/core/errors.ts';
import type { Language } from '../server/core/words/voiceChoice.ts';
import type { RecordedVoice, RecordingFault, VoiceHere } from '../server/wire/kept/voices.ts';
import { voiceKey, voiceName } from '../server/wire/kept/voices.ts';
import { clipUrl } from '../server/wire/message/clipUrl.ts';
import type { WireError } from '../server/wire/problem/wireError.ts';
import { isClipKey } from './clipFile.ts';
import type { RenderedClip } from './clipFolder.ts';
import { openClips } from './clips.ts';
import { SAMPLE_RATE_HZ } from './pcm/format.ts';
import { type Missing, openRecordedVoices, type PhraseFound } from './recorded/recordedVoices.ts';
import { openStudio, type Studio } from './recorded/studio.ts';
import { openSystemClips, SYSTEM } from './system/systemClips.ts';
import { findSystemVoice } from './system/systemVoice.ts';
import { ENGINE, VOICE_NAMES } from './voice/settings.ts';
import { openVoice } from './voice/voice.ts';

/** `voice` is missing for the embedded one. */
type Rendered =
  | { readonly ok: true; readonly voice?: string; readonly clips: readonly RenderedClip[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export interface Voices {
  /** The embedded one, which is used where none is asked for, comes first. */
  list(): Promise<readonly VoiceHere[]>;
  /** Of the voice by this name; undefined where there is none. */
  kindOf(voice: string | undefined): Promise<VoiceHere['kind'] | undefined>;
  /**
   * The clips of these texts in their order, all by one voice; refused, with what is missing, where it cannot say all of them.
   * Rejects where the voice itself fails (see `Voice.speak`) or the disk.
   */
  render(texts: readonly string[], asked?: VoiceWanted): Promise<Rendered>;
  /**
   * Absolute path of a clip. `said`: what it was made of, so that it can be made again where it is gone or damaged. Undefined where
   * there is none and it cannot be made again.
   */
  clipFile(key: string, said?: Said): Promise<string | undefined>;
  /** What is recorded of a voice; undefined where there is none of this name. */
  recorded(name: string): Promise<RecordedVoice | undefined>;
  /** Keeps a recording in the place of an earlier one. */
  keep(name: string, text: string, wav: Uint8Array): Promise<PhraseKept>;
  forget(name: string): Promise<boolean>;
  close(): Promise<void>;
}
interface VoiceWanted {
  /** Who speaks; the embedded voice where it is left out. */
  readonly voice?: string;
  /** Of the texts; English if it is left out. A recorded voice speaks whatever was recorded. */
  readonly language?: Language;
}
/** What a clip was made of. */
interface Said extends VoiceWanted {
  readonly text: string;
}
type PhraseKept =
  | { readonly ok: true; readonly voice: string; readonly url: string; readonly durationMs: number }
  | { readonly ok: false; readonly error: WireError };

const EMBEDDED: readonly VoiceHere[] = Object.entries(VOICE_NAMES).map(([language, name]) => ({
  name,
  kind: 'embedded',
  language,
  engine: ENGINE,
  sampleRateHz: SAMPLE_RATE_HZ,
}));
/** Names that no recording may take. */
const RESERVED = [...Object.values(VOICE_NAMES), SYSTEM];

interface VoicesOptions {
  readonly dataDir: string;
  /** Who prepares recordings; closed with the voices. */
  readonly studio?: Studio;
}

export function openVoices({ dataDir, studio = openStudio() }: VoicesOptions): Voices {
  const embedded = openVoice();
  const clips = openClips({ dataDir, voice: embedded });
  const system = openSystemClips(resolve(dataDir, 'clips'), findSystemVoice(studio));
  const recorded = openRecordedVoices(dataDir, studio);
  const isNamed = (asked: string | undefined, name: string): boolean =>
    asked !== undefined && voiceKey(asked) === voiceKey(name);

  const list = async (): Promise<readonly VoiceHere[]> => [...EMBEDDED, ...system.list(), ...(await recorded.list())];

  return {
    list,

    async kindOf(voice) {
      return voice === undefined ? 'embedded' : (await list()).find(({ name }) => isNamed(voice, name))?.kind;
    },

    async render(texts, { voice, language = 'en' } = {}) {
      // One of the embedded voices by its name is the one of the run's language.
      if (voice === undefined || EMBEDDED.some(({ name }) => isNamed(voice, name)))
        return { ok: true, clips: await clips.render(texts, { language }) };
      if (isNamed(voice, SYSTEM) && system.list().length > 0)
        return system.speaks(language)
          ? { ok: true, voice: SYSTEM, clips: await system.render(texts, language) }
          : { ok: false, problems: [notItsLanguage(language)] };
      const made = await recorded.render(voice, texts);
      if (made === undefined) return { ok: false, problems: [noVoice(voice)] };
      if (made.ok) return { ok: true, voice: made.name, clips: made.clips };
      if (made.why !== null) return { ok: false, problems: [unreadable(made.name, made.why)] };
      return { ok: false, problems: made.missing.map((each) => missing(made.name, each)) };
    },

    async clipFile(key, said) {
      if (!isClipKey(key)) return undefined;
      if (said === undefined) return clips.pathOf(key) ?? (await recorded.pathOf(key));
      const { text, voice, language } = said;
      if (voice === undefined) return clips.mend(key, text, language);
      return voice === SYSTEM ? system.mend(key, text, language) : recorded.mend(voice, key, text);
    },

    async recorded(name) {
      const found = await recorded.phrases(name);
      return found && { name: found.name, fault: found.why, phrases: found.phrases.map(phraseTold) };
    },

    async keep(name, text, wav) {
      if (voiceName(name) === undefined || RESERVED.some((each) => isNamed(name, each)))
        return refused('bad-name', `${JSON.stringify(name.slice(0, 60))} cannot be the name of a recorded voice`);
      const kept = await recorded.keep(voiceName(name) ?? name, text, wav);
      if (kept.ok) return { ok: true, voice: kept.name, url: clipUrl(kept.clip.key), durationMs: kept.clip.durationMs };
      return 'fault' in kept ? { ok: false, error: kept.fault } : refused('unreadable', kept.why);
    },

    forget: (name) => recorded.forget(name),
    async close() {
      await Promise.all([clips.close(), recorded.close()]);
    },
  };
}

/** As `voices` prints them; the embedded one has been tried. Rejects with a `VoiceFailed` if it does not load. */
export async function listVoices(dataDir: string): Promise<readonly VoiceHere[]> {
  const tried = openVoice();
  const voices = openVoices({ dataDir });
  try {
    await tried.about();
    return await voices.list();
  } finally {
    await Promise.all([tried.close(), voices.close()]);
  }
}

const phraseTold = (found: PhraseFound): RecordedVoice['phrases'][number] =>
  found.ok
    ? { text: found.clip.text, url: clipUrl(found.clip.key), durationMs: found.clip.durationMs, fault: null }
    : { text: found.text, url: null, durationMs: null, fault: found.fault };

const refused = (code: string, message: string): { readonly ok: false; readonly error: WireError } => ({
  ok: false,
  error: { code, message },
});

const AT = { field: 'voice' } as const;
const noVoice = (name: string): Problem => ({
  code: 'unknown-name',
  at: AT,
  found: JSON.stringify(name.slice(0, 60)),
  wanted: 'the name of a voice that is here (GET /api/voices), or none: then the embedded one speaks',
});
const notItsLanguage = (language: Language): Problem => ({
  code: 'not-supported',
  at: AT,
  found: `"${SYSTEM}" for a job in the language "${language}"`,
  wanted: 'a voice that speaks it: the embedded one does',
});
const unreadable = (name: string, why: string): Problem => ({
  code: 'not-json',
  at: AT,
  found: `${name}, whose list of phrases cannot be read (${why})`,
  wanted: 'a sound voice.json in its folder, or another voice',
});
const missing = (name: string, { text, fault }: Missing): Problem => ({
  code: 'missing',
  at: AT,
  found: fault === null ? `no "${text}" by ${name}` : `a recording of "${text}" by ${name} that will not do`,
  wanted: fault === null ? `a recording of "${text}"` : `another recording of "${text}": ${whyOf(fault)}`,
});
const whyOf = ({ message }: RecordingFault): string => message.replace(/\.$/, '');
