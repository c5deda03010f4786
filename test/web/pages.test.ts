import { describe, expect, test } from 'vitest';
import { openWeb } from './openWeb.ts';

describe('the pages', () => {
  test('stand at their addresses, never from a cache without asking', async () => {
    const { ask } = await openWeb();
    for (const [path, page] of [
      ['/', 'index'],
      ['/sawyer?run=r1', 'sawyer'],
      ['/wheel', 'wheel'],
      ['/codes', 'codes'],
      ['/record', 'record'],
      ['/join', 'join'],
    ]) {
      const told = await ask(path ?? '');
      expect([told.status, told.headers['cache-control']]).toEqual([200, 'no-cache']);
      expect(told.text).toContain(`${page} page`);
    }
  });

  test('their parts are kept by the browser for good', async () => {
    const { ask } = await openWeb();
    const told = await ask('/assets/wheel-1a2b.js');
    expect(told.status).toBe(200);
    expect(told.headers['cache-control']).toBe('public, max-age=31536000, immutable');
    expect((await ask('/assets/none.js')).status).toBe(404);
    expect((await ask('/assets/../../abc.wav')).status).toBe(404);
    expect((await ask('/%2e%2e/abc.wav')).status).toBe(404);
  });

  test('run no script but their own, and stand in no other page', async () => {
    const { ask, url } = await openWeb();
    const { headers } = await ask('/');
    const policy = String(headers['content-security-policy']);
    expect(policy).toContain("default-src 'self'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).toContain(`connect-src 'self' ws://${new URL(url).host}`);
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/unsafe|upgrade-insecure/);
    expect(headers['referrer-policy']).toBe('no-referrer');
    expect(headers['permissions-policy']).toContain('microphone=()');
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['cross-origin-resource-policy']).toBe('same-origin');
    expect(headers['strict-transport-security']).toBeUndefined();
    expect(headers['x-powered-by']).toBeUndefined();
  });

  test('where they are not built, it is said what to do', async () => {
    const { ask } = await openWeb({ pages: false });
    const told = await ask('/');
    expect(told.status).toBe(404);
    expect(told.text).toContain('npm run build');
    expect((await ask('/api/health')).status).toBe(200);
  });
});
