/** The addresses of voices and of the server's own loudspeaker; errors as values. */
import type { LoudspeakerState, RecordedVoice, VoiceHere } from '../../server/wire/kept/voices.ts';
import type { WireError } from '../../server/wire/problem/wireError.ts';

export type Told<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly status: number; readonly error: WireError };

interface KeptPhrase {
  readonly voice: string;
  readonly text: string;
  readonly url: string;
  readonly durationMs: number;
}

const of = (name: string): string => `/api/voices/${encodeURIComponent(name)}`;

export const voicesHere = {
  list: () => ask<readonly VoiceHere[]>('/api/voices'),
  recorded: (name: string) => ask<RecordedVoice>(of(name)),
  keep: (name: string, text: string, wav: string) => ask<KeptPhrase>(`${of(name)}/phrases`, post({ text, wav })),
  forget: (name: string) => ask<null>(of(name), { method: 'DELETE' }),
};

export const serverLoudspeaker = {
  state: () => ask<LoudspeakerState>('/api/loudspeaker'),
  test: () => ask<LoudspeakerState>('/api/loudspeaker/test', post({})),
  confirm: () => ask<LoudspeakerState>('/api/loudspeaker/confirm', post({})),
};

const post = (body: unknown): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(body),
});

async function ask<T>(address: string, init: RequestInit = {}): Promise<Told<T>> {
  try {
    const answer = await fetch(address, init);
    if (answer.status === 204) return { ok: true, value: null as T };
    const body = await answer.json();
    return answer.ok
      ? { ok: true, value: body as T }
      : { ok: false, status: answer.status, error: (body as { error: WireError }).error };
  } catch {
    const message = 'The server does not answer. Check that By the Mark is still running, then try again.';
    return { ok: false, status: 0, error: { code: 'no-answer', message } };
  }
}
