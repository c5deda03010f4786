import { describe, expect, test } from 'vitest';
import { openWeb } from './openWeb.ts';

const KEEP = { name: '  K   T ', run: 'r1' };

describe('the crew', () => {
  test('is kept, listed and forgotten', async () => {
    const { ask } = await openWeb();
    expect((await ask('/api/crew')).json).toEqual([]);
    expect((await ask('/api/runs/r1/hand')).json).toMatchObject({ calls: 12, keptFor: null });
    const kept = await ask('/api/crew', { method: 'POST', body: KEEP });
    expect([kept.status, kept.headers.location, kept.json.name]).toEqual([201, '/api/crew/K%20T', 'K T']);
    expect((await ask('/api/crew')).json).toMatchObject([
      { name: 'K T', reactionS: 0.53, turnsPerS: null, runs: ['r1'] },
    ]);
    expect((await ask('/api/runs/r1/hand')).json.keptFor).toBe('K T');
    expect((await ask('/api/crew/k%20t', { method: 'DELETE' })).status).toBe(204);
    const gone = await ask('/api/crew/k%20t', { method: 'DELETE' });
    expect([gone.status, gone.json.error.code]).toEqual([404, 'no-such-hand']);
    expect((await ask('/api/crew')).json).toEqual([]);
  });

  test.each([
    [{ name: '   ', run: 'r1' }, 400, 'bad-shape', 'name'],
    [{ name: 'x'.repeat(41), run: 'r1' }, 400, 'bad-shape', 'name'],
    [{ name: 'K\u202eT', run: 'r1' }, 400, 'bad-shape', 'name'],
    [{ name: 'KT' }, 400, 'bad-shape', 'run'],
    [{ name: 'KT', run: 'r1', agreed: true }, 400, 'bad-shape', 'agreed'],
    [{ name: 'KT', run: 'none' }, 404, 'no-such-run', undefined],
    [{ name: 'Nobody', run: 'r1' }, 409, 'nothing-learnt', undefined],
  ])('%j is refused', async (body, status, code, path) => {
    const { ask } = await openWeb();
    const told = await ask('/api/crew', { method: 'POST', body });
    expect([told.status, told.json.error.code, told.json.error.path]).toEqual([status, code, path]);
    expect((await ask('/api/crew')).json).toEqual([]);
  });

  test('a run that there is not tells nothing', async () => {
    const { ask } = await openWeb();
    expect((await ask('/api/runs/none/hand')).status).toBe(404);
    expect((await ask('/api/crew', { method: 'DELETE' })).status).toBe(405);
  });

  test('over the network is for the console alone', async () => {
    const { ask, consoleKey } = await openWeb({ lan: true });
    const bearer = (key: string | null) => ({ authorization: `Bearer ${key}` });
    const asked = [
      ['GET', '/api/crew', undefined],
      ['POST', '/api/crew', KEEP],
      ['DELETE', '/api/crew/KT', undefined],
      ['GET', '/api/runs/r1/hand', undefined],
    ] as const;
    for (const role of ['wheel', 'sawyer', 'signal']) {
      const body = { role, label: role };
      const device = await ask('/api/devices', { method: 'POST', headers: bearer(consoleKey), body });
      const key = new URL(device.json.url).searchParams.get('key');
      for (const [method, path, body] of asked) {
        const told = await ask(path, { method, headers: bearer(key), body });
        expect([role, method, path, told.status]).toEqual([role, method, path, 403]);
      }
    }
    expect((await ask('/api/crew')).status).toBe(401);
    expect((await ask('/api/crew', { method: 'POST', headers: bearer(consoleKey), body: KEEP })).status).toBe(201);
  });
});
