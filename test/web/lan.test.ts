/** Open to the shop's network: over real HTTPS on loopback, with the certificate that was made. */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { connect } from 'node:tls';
import { describe, expect, test } from 'vitest';
import { WRONG_KEYS_A_MINUTE } from '../../server/web/access/wrongKeys.ts';
import { openWeb, type WebUnderTest } from './openWeb.ts';

const bearer = (key: string | null): Record<string, string> => ({ authorization: `Bearer ${key}` });

async function pair(web: WebUnderTest, role: 'wheel' | 'sawyer' | 'signal') {
  const told = await web.ask('/api/devices', {
    method: 'POST',
    headers: bearer(web.consoleKey),
    body: { role, label: `the ${role}` },
  });
  expect(told.status).toBe(201);
  const url = new URL(told.json.url);
  return { id: String(told.json.id), url, key: url.searchParams.get('key') ?? '', qr: String(told.json.qr) };
}
const connects = (page: ReturnType<WebUnderTest['page']>): Promise<boolean> =>
  new Promise((resolve) => {
    page.on('connect', () => resolve(true));
    page.on('connect_error', () => resolve(false));
  });

describe('without a key', () => {
  test('only the health and the joining page are open, on loopback too', async () => {
    const { ask, raw, page, url } = await openWeb({ lan: true });
    expect(url).toMatch(/^https:/);
    expect((await ask('/api/health')).status).toBe(200);
    const joining = await ask('/join');
    expect([joining.status, joining.text]).toEqual([200, expect.stringContaining('join page')]);
    expect((await ask('/assets/join-1a2b.js')).status).toBe(200);

    for (const path of ['/', '/sawyer', '/wheel', '/codes', '/record']) {
      const told = await ask(path);
      expect([path, told.status, told.text]).toEqual([path, 401, expect.stringContaining('join page')]);
    }
    for (const path of [
      '/api/runs',
      '/api/runs/r1',
      '/api/jobs',
      '/api/devices',
      '/api/access',
      '/api/nothing',
      '/assets/wheel-1a2b.js',
    ])
      expect([path, (await ask(path)).status]).toEqual([path, 401]);
    for (const path of ['/api/plan', '/api/runs', '/api/runs/r1/start', '/api/devices'])
      expect([path, (await ask(path, { method: 'POST' })).status]).toEqual([path, 401]);
    for (const path of ['/feed?run=r1', '/readout?run=r1', '/feed?run=none'])
      expect([path, await raw(path).refusedWith()]).toEqual([path, 401]);
    expect(await connects(page())).toBe(false);
  });

  test('wrong keys are refused, after some also told to wait; a right one is never', async () => {
    const web = await openWeb({ lan: true });
    const { ask, consoleKey } = web;
    const statuses: number[] = [];
    for (let n = 0; n <= WRONG_KEYS_A_MINUTE; n += 1)
      statuses.push((await ask('/api/runs', { headers: bearer(`${n}`.padStart(40, '0')) })).status);
    expect(statuses).toEqual([...Array(WRONG_KEYS_A_MINUTE).fill(401), 429]);
    expect((await ask('/api/runs?key=wrong')).headers['retry-after']).toBe('60');
    expect((await ask('/api/runs', { headers: bearer(consoleKey) })).status).toBe(200);
  });
});

describe('the console', () => {
  test('opens by its address, which is cleaned of the key at once', async () => {
    const { ask, consoleKey } = await openWeb({ lan: true });
    const told = await ask(`/sawyer?run=r1&key=${consoleKey}`);
    expect([told.status, told.headers.location]).toEqual([303, '/sawyer?run=r1']);
    const cookie = String(told.headers['set-cookie']);
    expect(cookie).toMatch(/^__Host-/);
    for (const part of ['HttpOnly', 'Secure', 'SameSite=Strict', 'Path=/']) expect(cookie).toContain(part);
    const headers = { cookie: cookie.split(';')[0] ?? '' };
    expect((await ask('/sawyer?run=r1', { headers })).text).toContain('sawyer page');
    expect((await ask('/assets/wheel-1a2b.js', { headers })).status).toBe(200);
    expect((await ask('/api/access', { headers })).json).toEqual({ lan: true, role: 'console' });
  });

  test('may do everything, its key in the query, in a header, or in a cookie', async () => {
    const web = await openWeb({ lan: true });
    const { ask, raw, page, consoleKey } = web;
    expect((await ask(`/api/runs?key=${consoleKey}`)).status).toBe(200);
    expect((await ask('/api/runs/r1/start', { method: 'POST', headers: bearer(consoleKey) })).json.state).toBe(
      'feeding',
    );
    const feed = raw(`/feed?run=r1&key=${consoleKey}`);
    await feed.opened;
    feed.send({ kind: 'pedal' });
    expect(await feed.next()).toEqual({ ok: true, seq: 2 });
    expect((await raw('/readout?run=r1', bearer(consoleKey)).next()).kind).toBe('guide');
    expect(await connects(page({ query: { key: consoleKey ?? '' } }))).toBe(true);
    expect(await connects(page({ headers: { cookie: `a=b; __Host-by-the-mark-key=${consoleKey}` } }))).toBe(true);
  });

  test('its cookie does not help a page of another site', async () => {
    const { ask, raw, consoleKey } = await openWeb({ lan: true });
    const headers = { cookie: `__Host-by-the-mark-key=${consoleKey}`, origin: 'https://evil.example' };
    expect((await ask('/api/runs/r1/start', { method: 'POST', headers })).status).toBe(403);
    expect(await raw('/feed?run=r1', headers).refusedWith()).toBe(403);
  });

  test('an old cookie is taken away, so that it is not counted as wrong for ever', async () => {
    const { ask } = await openWeb({ lan: true });
    const told = await ask('/', { headers: { cookie: '__Host-by-the-mark-key=old' } });
    expect(told.status).toBe(401);
    expect(String(told.headers['set-cookie'])).toMatch(/^__Host-by-the-mark-key=;.*Expires=Thu, 01 Jan 1970/);
  });

  test('a link with a wrong key is refused, and takes no good cookie away', async () => {
    const { ask, consoleKey } = await openWeb({ lan: true });
    const headers = { cookie: `__Host-by-the-mark-key=${consoleKey}` };
    for (const link of ['/?key=wrong', '/sawyer?run=r1&key=', `/wheel?key=${'0'.repeat(40)}`]) {
      const told = await ask(link, { headers });
      expect([link, told.status, told.headers['set-cookie']]).toEqual([link, 401, undefined]);
    }
    expect((await ask('/', { headers })).status).toBe(200);
  });
});

describe('a device', () => {
  test('gets an address that other machines can use, with a code for it', async () => {
    const web = await openWeb({ lan: true });
    const wheel = await pair(web, 'wheel');
    expect([wheel.url.protocol, wheel.url.pathname, wheel.url.port]).toEqual([
      'https:',
      '/wheel',
      new URL(web.url).port,
    ]);
    expect(wheel.qr).toMatch(/^<svg/);
    expect(wheel.key).toMatch(/^[0-9a-f]{40}$/);
    const signal = await pair(web, 'signal');
    expect([signal.url.protocol, signal.url.pathname]).toEqual(['wss:', '/feed']);
    const listed = (await web.ask('/api/devices', { headers: bearer(web.consoleKey) })).json;
    expect(listed).toMatchObject([
      { role: 'wheel', label: 'the wheel' },
      { role: 'signal', label: 'the signal' },
    ]);
    expect(JSON.stringify(listed)).not.toContain(wheel.key);
    expect(readFileSync(join(web.dataDir, 'access', 'devices.json'), 'utf8')).not.toContain(wheel.key);
    const wrong = await web.ask('/api/devices', {
      method: 'POST',
      headers: bearer(web.consoleKey),
      body: { role: 'console', label: 'x' },
    });
    expect([wrong.status, wrong.json.error.path]).toEqual([400, 'role']);
  });

  test('at the wheel reads, tells its tilt and may stop the feed, and nothing more', async () => {
    const web = await openWeb({ lan: true });
    const { ask, page, raw, run } = web;
    const { key } = await pair(web, 'wheel');
    const headers = bearer(key);
    for (const path of [
      '/api/runs',
      '/api/runs/r1',
      '/api/runs/r1/plan',
      '/api/runs/r1/clips',
      '/api/clips/abc.wav',
      '/wheel',
    ])
      expect([path, (await ask(path, { headers })).status]).toEqual([path, 200]);
    for (const path of ['/api/runs', '/api/plan', '/api/runs/r1/start', '/api/runs/r1/finish', '/api/devices'])
      expect([path, (await ask(path, { method: 'POST', headers, body: {} })).status]).toEqual([path, 403]);
    for (const path of ['/api/devices', '/api/jobs']) expect((await ask(path, { headers })).status).toBe(403);
    const home = await ask('/sawyer?run=r1', { headers });
    expect([home.status, home.headers.location]).toEqual([303, '/wheel?run=r1']);
    for (const path of ['/feed?run=r1', '/readout?run=r1']) expect(await raw(path, headers).refusedWith()).toBe(403);

    const wheel = page({ headers });
    const notAllowed = { ok: false, error: { code: 'not-allowed' } };
    expect(await wheel.emitWithAck('join', { run: 'r1', role: 'sawyer' })).toMatchObject(notAllowed);
    expect(await wheel.emitWithAck('join', { run: 'r1', role: 'wheel' })).toMatchObject({ ok: true });
    expect(await wheel.emitWithAck('command', 'start')).toMatchObject(notAllowed);
    expect(await wheel.emitWithAck('reading', { kind: 'pedal' })).toMatchObject(notAllowed);
    expect(await wheel.emitWithAck('reading', { kind: 'tilt', deg: 4 })).toMatchObject({ ok: true });
    await run.command('start');
    expect(await wheel.emitWithAck('command', 'stop-feed')).toMatchObject({ ok: true });
  });

  test('of the sawyer commands and presses, but makes no runs and no keys', async () => {
    const web = await openWeb({ lan: true });
    const { ask, page } = web;
    const { key } = await pair(web, 'sawyer');
    const headers = bearer(key);
    expect((await ask('/api/runs/r1/start', { method: 'POST', headers })).status).toBe(200);
    for (const path of ['/api/runs', '/api/plan', '/api/devices'])
      expect([path, (await ask(path, { method: 'POST', headers, body: {} })).status]).toEqual([path, 403]);
    const sawyer = page({ headers });
    expect(await sawyer.emitWithAck('join', { run: 'r1', role: 'sawyer' })).toMatchObject({ ok: true });
    for (const frame of [{ kind: 'pedal' }, { kind: 'mark', mark: 2 }] as const)
      expect(await sawyer.emitWithAck('reading', frame)).toMatchObject({ ok: true });
    expect(await sawyer.emitWithAck('reading', { kind: 'travel', mm: 3 })).toMatchObject({ ok: false });
  });

  test('that is a signal source has the raw sockets and nothing else', async () => {
    const web = await openWeb({ lan: true });
    const { key } = await pair(web, 'signal');
    const feed = web.raw(`/feed?run=r1&key=${key}`);
    await feed.opened;
    feed.send({ kind: 'travel', mm: 3 });
    expect(await feed.next()).toMatchObject({ ok: true });
    expect((await web.raw(`/readout?run=r1&key=${key}`).next()).kind).toBe('guide');
    for (const path of ['/api/runs', '/api/runs/r1', '/api/clips/abc.wav', '/'])
      expect([path, (await web.ask(path, { headers: bearer(key) })).status]).toEqual([path, 403]);
    const page = web.page({ headers: bearer(key) });
    expect(await page.emitWithAck('join', { run: 'r1', role: 'wheel' })).toMatchObject({ ok: false });
  });

  test('is cut off at once when its key is revoked', async () => {
    const web = await openWeb({ lan: true });
    const wheel = await pair(web, 'wheel');
    const signal = await pair(web, 'signal');
    const page = web.page({ headers: bearer(wheel.key) });
    await page.emitWithAck('join', { run: 'r1', role: 'wheel' });
    const feed = web.raw(`/feed?run=r1&key=${signal.key}`);
    await feed.opened;
    const gone = new Promise((resolve) => page.on('disconnect', resolve));
    for (const { id } of [wheel, signal]) {
      const told = await web.ask(`/api/devices/${id}`, { method: 'DELETE', headers: bearer(web.consoleKey) });
      expect(told.status).toBe(204);
    }
    await gone;
    expect(await feed.closed).toBe(1008);
    expect((await web.ask('/api/runs', { headers: bearer(wheel.key) })).status).toBe(401);
    const again = await web.ask(`/api/devices/${wheel.id}`, { method: 'DELETE', headers: bearer(web.consoleKey) });
    expect(again.status).toBe(404);
  });
});

test('what is kept is readable by its owner only, and the certificate is for every name of this machine', async () => {
  const web = await openWeb({ lan: true });
  await pair(web, 'wheel');
  const folder = join(web.dataDir, 'access');
  expect(statSync(folder).mode & 0o777).toBe(0o700);
  for (const file of ['certificate.pem', 'certificate-key.pem', 'console-key', 'devices.json'])
    expect([file, statSync(join(folder, file)).mode & 0o777]).toEqual([file, 0o600]);
  const { port } = new URL(web.url);
  for (const servername of ['localhost', '127.0.0.1']) {
    const socket = connect({
      host: '127.0.0.1',
      port: Number(port),
      ca: web.ca,
      ...(servername === 'localhost' ? { servername } : {}),
    });
    await new Promise((resolve, reject) => socket.once('secureConnect', resolve).once('error', reject));
    expect(socket.authorized).toBe(true);
    socket.destroy();
  }
});
