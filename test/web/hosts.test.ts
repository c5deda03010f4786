import { describe, expect, test } from 'vitest';
import { hostIsHere, originIsHere } from '../../server/web/askedHost.ts';
import { openWeb } from './openWeb.ts';

describe('a name that is not this server’s', () => {
  const attacks = (port: string): [string, Record<string, string>][] => [
    ['another name (its DNS turned to loopback)', { host: `evil.example:${port}` }],
    ['a name that begins like ours', { host: `localhost.evil.example:${port}` }],
    ['our name without the port', { host: 'localhost' }],
    ['another port', { host: 'localhost:1' }],
    ['a name and a password', { host: `localhost:${port}@evil.example` }],
    ['an address of another machine', { host: `192.0.2.7:${port}` }],
    ['Origin of another site', { origin: 'https://evil.example' }],
    ['Origin of another port of this machine', { origin: 'http://127.0.0.1:1' }],
    ['Origin of another scheme', { origin: `https://127.0.0.1:${port}` }],
    ['Origin of another name of this machine', { origin: `http://localhost:${port}` }],
    ['Origin null', { origin: 'null' }],
    ['Origin that is no address', { origin: '::' }],
  ];

  test('is refused over HTTP, on page sockets and on raw sockets', async () => {
    const { ask, raw, page, url, run } = await openWeb();
    for (const [name, headers] of attacks(new URL(url).port)) {
      for (const path of ['/api/health', '/', '/api/runs/r1'])
        expect([name, path, (await ask(path, { headers })).status]).toEqual([name, path, 403]);
      const started = await ask('/api/runs/r1/start', { method: 'POST', headers });
      expect([name, started.status]).toEqual([name, 403]);
      for (const path of ['/feed?run=r1', '/readout?run=r1'])
        expect([name, path, await raw(path, headers).refusedWith()]).toEqual([name, path, 403]);
      const socket = page({ headers });
      const refused = await new Promise((resolve) => {
        socket.on('connect', () => resolve(false));
        socket.on('connect_error', () => resolve(true));
      });
      expect([name, refused]).toEqual([name, true]);
    }
    expect(run.view().state).toBe('ready');
  });

  test('a page of another site that leaves its Origin out is known by Sec-Fetch-Site, but may link here', async () => {
    const { ask } = await openWeb();
    const headers = { 'sec-fetch-site': 'cross-site' };
    expect((await ask('/api/runs', { headers })).status).toBe(403);
    expect((await ask('/api/runs', { headers: { 'sec-fetch-site': 'same-site' } })).status).toBe(403);
    expect((await ask('/', { headers })).status).toBe(200);
  });

  test('every loopback name with the right port is let in, from its own origin', async () => {
    const { ask, url } = await openWeb();
    const { port } = new URL(url);
    for (const name of ['localhost', '127.0.0.1', '[::1]', 'LOCALHOST']) {
      const host = `${name}:${port}`;
      const headers = { host, origin: `http://${name.toLowerCase()}:${port}`, 'sec-fetch-site': 'same-origin' };
      expect([name, (await ask('/api/runs', { headers })).status]).toEqual([name, 200]);
    }
  });

  test('a default port may be left out', () => {
    const names = new Set(['localhost']);
    expect(hostIsHere('localhost', { secure: true, port: 443, names })).toBe(true);
    expect(hostIsHere('localhost', { secure: false, port: 443, names })).toBe(false);
    expect(originIsHere({ host: 'localhost:443', origin: 'https://localhost', site: undefined }, true)).toBe(true);
  });
});
