/** The voices that calls can be spoken by, and the recordings that the yard makes of its own mate's. */
import { z } from 'zod';
import { describeShape } from '../problem/describeShape.ts';
import type { ParsedRequest } from '../request/requests.ts';

/** `embedded`: comes with the program; `system`: the machine's own; `recorded`: made here, phrase by phrase. */
type VoiceKind = 'embedded' | 'system' | 'recorded';

export interface VoiceHere {
  readonly name: string;
  readonly kind: VoiceKind;
  /** Null where nobody has said it. */
  readonly language: string | null;
  readonly engine: string;
  readonly sampleRateHz: number;
  /** Of a recorded voice: how many phrases it has. */
  readonly phrases?: number;
}

/** One phrase of a recorded voice, as it will be heard; or why it will not. */
export interface RecordedPhrase {
  readonly text: string;
  /** The finished clip, trimmed and levelled. */
  readonly url: string | null;
  readonly durationMs: number | null;
  readonly fault: RecordingFault | null;
}
/** `GET /api/voices/NAME`. */
export interface RecordedVoice {
  readonly name: string;
  /** Why its list of phrases cannot be read; null where it can. */
  readonly fault: string | null;
  readonly phrases: readonly RecordedPhrase[];
}

export type RecordingFaultCode =
  | 'not-a-recording'
  | 'nothing-heard'
  | 'too-quiet'
  | 'clipped'
  | 'too-noisy'
  | 'too-long';
/** What is wrong with a recording, and what to do about it. */
export interface RecordingFault {
  readonly code: RecordingFaultCode;
  readonly message: string;
}

/** The `id` of the server's own loudspeaker among the listeners of a run. */
export const SERVER_EAR = 'server loudspeaker';

/** `GET /api/loudspeaker`. */
export interface LoudspeakerState {
  /** The program that plays. */
  readonly player: string;
  readonly hearing: 'silent' | 'confirmed' | 'suspended';
  /** The test words have been played to their end since the sound last failed. */
  readonly tested: boolean;
  /** Why it cannot be heard; null where nothing is known against it. */
  readonly why: string | null;
  /** From the moment at which a sound is begun until it is heard, as the test words have shown; at most so much. */
  readonly delayMs: number;
}

interface KeepPhraseRequest {
  readonly text: string;
  /** A WAV file: mono or stereo, 16 bits or floating point, in base64. */
  readonly wav: string;
}

export const VOICE_NAME_CHARS = 40;
/** Ten seconds at 48,000 samples a second in 32 bits, and then some. */
export const RECORDING_LIMIT_BYTES = 2_000_000;
/** No phrase of a run is longer. */
const PHRASE_CHARS = 160;

const NAME = /^[\p{L}\p{N}](?:[\p{L}\p{M}\p{N} -]*[\p{L}\p{M}\p{N}])?$/u;
/** Names that a Windows disk keeps for itself. */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)$/i;
/** Words, in any language; the simple marks between them. Nothing that a file, a shell or a voice could take for more. */
const PHRASE = /^[\p{L}\p{N}][\p{L}\p{M}\p{N} ,.’'-]*$/u;

/** As it is shown and as its folder is called; undefined where it is no name. No dots, slashes or the like: it names a folder. */
export function voiceName(text: string): string | undefined {
  const name = text.normalize('NFC').trim().replace(/\s+/gu, ' ');
  return name.length <= VOICE_NAME_CHARS && NAME.test(name) && !DEVICE.test(name) ? name : undefined;
}

/** Names that differ in capitals only are one voice's: some disks take them for one. */
export const voiceKey = (name: string): string => (voiceName(name) ?? name).toLowerCase();

export const isPhrase = (text: string): boolean => text.length <= PHRASE_CHARS && PHRASE.test(text);

const keepRequest = z.strictObject({
  text: z
    .string()
    .refine(isPhrase, { message: 'expected the words of a phrase: letters, digits, spaces and , . - only' }),
  wav: z
    .string()
    .max(Math.ceil((RECORDING_LIMIT_BYTES * 4) / 3) + 4)
    .regex(/^[A-Za-z0-9+/]+={0,2}$/, { message: 'expected a WAV file in base64' }),
});

/** `POST /api/voices/NAME/phrases`. Never throws, whatever it is given. */
export function parseKeepPhrase(body: unknown): ParsedRequest<KeepPhraseRequest> {
  const parsed = keepRequest.safeParse(body ?? {});
  return parsed.success
    ? { ok: true, value: parsed.data }
    : { ok: false, error: describeShape(parsed.error, body ?? {}) };
}
