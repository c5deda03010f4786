import type { VoiceFound } from './voice/settings.ts';
import { openVoice } from './voice/voice.ts';

/** The voices that calls can be spoken by, each one tried; the first is what is used. Rejects with a `VoiceFailed` if it does not load. */
export async function listVoices(): Promise<readonly VoiceFound[]> {
  const voice = openVoice();
  try {
    return [await voice.about()];
  } finally {
    await voice.close();
  }
}
