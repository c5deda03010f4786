import { expect, test } from 'vitest';
import { openWeb } from './openWeb.ts';

const wav = Buffer.from('RIFF....WAVE').toString('base64');
const json = (body: unknown) => ({ method: 'POST', body });

test('voices are listed, recorded and forgotten', async () => {
  const { ask } = await openWeb();
  expect((await ask('/api/voices')).json).toMatchObject([{ name: 'en-us', kind: 'embedded' }]);
  expect((await ask('/api/voices/Mate')).json.error.code).toBe('no-such-voice');
  const kept = await ask('/api/voices/Mate/phrases', json({ text: 'four', wav }));
  expect([kept.status, kept.json]).toEqual([
    201,
    { voice: 'Mate', text: 'four', url: '/api/clips/abc.wav', durationMs: 300 },
  ]);
  expect((await ask('/api/voices/Mate')).json.phrases).toHaveLength(1);
  expect((await ask('/api/voices/Mate', { method: 'DELETE' })).status).toBe(204);
  expect((await ask('/api/voices/Mate', { method: 'DELETE' })).status).toBe(404);
});

test.each([
  ['no words', { text: '', wav }, 'text'],
  ['words that are none', { text: '$(four)', wav }, 'text'],
  ['no sound', { text: 'four' }, 'wav'],
  ['what is not base64', { text: 'four', wav: '<wav>' }, 'wav'],
  ['too much of it', { text: 'four', wav: 'A'.repeat(2_700_000) }, 'wav'],
  ['something more', { text: 'four', wav, file: '/etc/passwd' }, 'file'],
])('%s is refused with its place', async (_, body, path) => {
  const { ask } = await openWeb();
  const told = await ask('/api/voices/Mate/phrases', json(body));
  expect([told.status, told.json.error.path]).toEqual([400, path]);
});

test('a recording that will not do is 422, with what to do', async () => {
  const { ask } = await openWeb();
  const told = await ask('/api/voices/Mate/phrases', json({ text: 'four', wav: 'AAAA' }));
  expect([told.status, told.json.error]).toEqual([422, { code: 'too-quiet', message: 'Too quiet.' }]);
});

test('with --lan they are the console’s alone, the page and the microphone too', async () => {
  const { ask, consoleKey } = await openWeb({ lan: true });
  const console_ = { authorization: `Bearer ${consoleKey}` };
  expect((await ask('/voice')).status).toBe(401);
  const page = await ask('/voice', { headers: console_ });
  expect([page.status, page.text]).toEqual([200, expect.stringContaining('voice page')]);
  expect(page.headers['permissions-policy']).toContain('microphone=(self)');
  expect((await ask('/', { headers: console_ })).headers['permissions-policy']).toContain('microphone=()');
  for (const role of ['sawyer', 'wheel'] as const) {
    const device = await ask('/api/devices', { method: 'POST', headers: console_, body: { role, label: role } });
    const headers = { authorization: `Bearer ${new URL(device.json.url).searchParams.get('key')}` };
    for (const path of ['/api/voices', '/api/voices/Mate']) expect((await ask(path, { headers })).status).toBe(403);
    expect((await ask('/voice', { headers })).status).toBe(303);
    const keep = await ask('/api/voices/Mate/phrases', { ...json({ text: 'four', wav }), headers });
    expect(keep.status).toBe(403);
  }
});

test('a server without a loudspeaker of its own says so', async () => {
  const { ask } = await openWeb();
  const told = await ask('/api/loudspeaker');
  expect([told.status, told.json.error.message]).toEqual([404, expect.stringContaining('--loudspeaker')]);
  expect((await ask('/api/loudspeaker/test', json({}))).status).toBe(404);
});
