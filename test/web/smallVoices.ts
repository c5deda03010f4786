/** Voices in memory: what is kept is told again. */
import type { VoicesPort } from '../../server/web/webPorts.ts';
import type { RecordedPhrase } from '../../server/wire/kept/voices.ts';

export function smallVoices(): VoicesPort {
  const recorded = new Map<string, RecordedPhrase[]>();
  return {
    list: async () => [
      { name: 'en-us', kind: 'embedded', language: 'en', engine: 'a voice', sampleRateHz: 22_050 },
      ...[...recorded].map(([name, { length: phrases }]) => ({
        name,
        kind: 'recorded' as const,
        language: null,
        engine: 'recorded here',
        sampleRateHz: 22_050,
        phrases,
      })),
    ],
    async recorded(name) {
      const phrases = recorded.get(name);
      return phrases && { name, fault: null, phrases };
    },
    async keep(name, text, wav) {
      if (wav.length < 4) return { ok: false, error: { code: 'too-quiet', message: 'Too quiet.' } };
      const url = '/api/clips/abc.wav';
      recorded.set(name, [...(recorded.get(name) ?? []), { text, url, durationMs: 300, fault: null }]);
      return { ok: true, voice: name, url, durationMs: 300 };
    },
    forget: async (name) => recorded.delete(name),
  };
}
