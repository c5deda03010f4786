/** From a recording to a clip beside which the embedded voice's are no louder and no quieter; or what is wrong with it, at once. */
import { secondsText } from '../../server/core/figures/durations.ts';
import { longestSpokenS } from '../../server/core/words/spokenLength.ts';
import type { RecordingFault, RecordingFaultCode } from '../../server/wire/kept/voices.ts';
import { filter, highPass } from '../pcm/biquad.ts';
import { SAMPLE_RATE_HZ, samplesIn, toInt16 } from '../pcm/format.ts';
import { loudnessLufs } from '../pcm/loudness.ts';
import { makeClip } from '../pcm/makeClip.ts';
import { findSpeech } from './findSpeech.ts';
import { readRecording } from './readRecording.ts';
import { resample } from './resample.ts';

export type Prepared =
  | { readonly ok: true; readonly samples: Int16Array }
  | { readonly ok: false; readonly fault: RecordingFault };

/** The longest recording that is looked at. */
const LONGEST_S = 20;
/** At full scale for so many samples in a row, a wave has been cut off. */
const FULL_SCALE = 0.99;
const CUT_OFF_SAMPLES = 3;
/** Quieter, and the microphone's own noise is heard beside it once it has been made as loud as the others. */
const QUIETEST_LUFS = -42;
/** The words over the room. */
const LEAST_OVER_ROOM_DB = 18;
/** Rumble of a shop and of a hand on the microphone: no part of a voice. */
const RUMBLE_HZ = 120;
/** A sound begins so long before it is noticed. */
const LEAD = samplesIn(0.005);
/** Longer than the plan reckons with by so much, calls are late that the plan says are not. */
const longestS = (text: string): number => 1.5 * longestSpokenS(text) + 0.5;

/** Samples of a finished clip at 22,050 Hz. Never throws, whatever the bytes are. */
export function prepare({ bytes, text }: { readonly bytes: Uint8Array; readonly text: string }): Prepared {
  const read = readRecording(bytes);
  if (read === undefined) return fault('not-a-recording', 'This is not a WAV file that can be read.');
  const { rateHz } = read;
  const samples = read.samples.subarray(0, Math.round(LONGEST_S * rateHz));
  const quiet = filter(resample(samples, rateHz, SAMPLE_RATE_HZ), highPass(RUMBLE_HZ, Math.SQRT1_2, SAMPLE_RATE_HZ));
  const speech = findSpeech(quiet, SAMPLE_RATE_HZ);
  if (speech === undefined) return fault('nothing-heard', 'No words are heard in it. Is this the right microphone?');
  const scale = rateHz / SAMPLE_RATE_HZ;
  if (isCutOff(samples.subarray(Math.floor(speech.from * scale), Math.ceil(speech.to * scale))))
    return fault('clipped', 'Too loud: it is cut off at the top. Go back a little, or turn the microphone down.');
  const words = quiet.slice(Math.max(0, speech.from - LEAD), speech.to);
  if (loudnessLufs(words, SAMPLE_RATE_HZ) < QUIETEST_LUFS)
    return fault('too-quiet', 'Too quiet. Go nearer, or turn the microphone up.');
  if (speech.speechDb - speech.roomDb < LEAST_OVER_ROOM_DB)
    return fault('too-noisy', 'The room is too loud beside the words. Stop the machines, shut the door, go nearer.');
  const lastsS = words.length / SAMPLE_RATE_HZ;
  if (lastsS > longestS(text))
    return fault(
      'too-long',
      `Too long: ${secondsText(lastsS)}, at most ${secondsText(longestS(text))} for these words. Say it in one go.`,
    );
  return { ok: true, samples: toInt16(makeClip(words)) };
}

/** The same for what a program has spoken, which needs no judging: an empty clip where it is silence, or no sound at all. */
export function finish({ bytes }: { readonly bytes: Uint8Array }): Int16Array {
  const read = readRecording(bytes);
  return toInt16(
    read === undefined ? new Float64Array(0) : makeClip(resample(read.samples, read.rateHz, SAMPLE_RATE_HZ)),
  );
}

const fault = (code: RecordingFaultCode, message: string): Prepared => ({ ok: false, fault: { code, message } });

function isCutOff(samples: Float64Array): boolean {
  let run = 0;
  for (const sample of samples) {
    run = Math.abs(sample) >= FULL_SCALE ? run + 1 : 0;
    if (run >= CUT_OFF_SAMPLES) return true;
  }
  return false;
}
