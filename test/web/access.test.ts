import { X509Certificate } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { keptCertificate } from '../../server/web/access/certificate.ts';
import { lanAccess } from '../../server/web/access/lanAccess.ts';
import { createWrongKeys, WRONG_KEYS_A_MINUTE } from '../../server/web/access/wrongKeys.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';

const NOW_MS = Date.now();
const DAY_MS = 24 * 60 * 60 * 1000;
const NAMES = ['localhost', '127.0.0.1', '::1', 'saw-house.local'];

test('the certificate names every name and address, and is kept', async () => {
  const folder = freeDataDir();
  const made = await keptCertificate(folder, NAMES, NOW_MS);
  const certificate = new X509Certificate(made.cert);
  expect(certificate.checkHost('saw-house.local')).toBe('saw-house.local');
  expect(certificate.checkIP('127.0.0.1')).toBe('127.0.0.1');
  expect(certificate.checkIP('::1')).toBe('::1');
  expect(certificate.checkHost('evil.example')).toBeUndefined();
  expect(certificate.ca).toBe(false);
  expect(await keptCertificate(folder, NAMES, NOW_MS)).toEqual(made);
  expect(await keptCertificate(folder, ['localhost'], NOW_MS)).toEqual(made);
});

test('the certificate is made anew when an address is new, when it is about to end, and when it is damaged', async () => {
  const folder = freeDataDir();
  const first = await keptCertificate(folder, NAMES, NOW_MS);
  const moved = await keptCertificate(folder, [...NAMES, '192.0.2.9'], NOW_MS);
  expect(moved.cert).not.toBe(first.cert);
  const later = await keptCertificate(folder, NAMES, NOW_MS + 380 * DAY_MS);
  expect(later.cert).not.toBe(moved.cert);
  writeFileSync(join(folder, 'certificate.pem'), 'half a certif');
  const mended = await keptCertificate(folder, NAMES, NOW_MS);
  expect(new X509Certificate(mended.cert).checkHost('localhost')).toBe('localhost');
  writeFileSync(join(folder, 'certificate-key.pem'), first.key);
  expect((await keptCertificate(folder, NAMES, NOW_MS)).key).not.toBe(first.key);
});

test('the console’s key and the devices outlive a restart; a deleted console key is replaced', async () => {
  const dataDir = freeDataDir();
  const first = await lanAccess(dataDir);
  const { device, key } = await first.addDevice('wheel', 'tablet');
  const second = await lanAccess(dataDir);
  expect(second.consoleKey).toBe(first.consoleKey);
  expect(second.admit(key, 'here')).toEqual({ ok: true, holder: { role: 'wheel', device: device.id } });
  writeFileSync(join(dataDir, 'access', 'console-key'), '');
  const third = await lanAccess(dataDir);
  expect(third.consoleKey).toMatch(/^[0-9a-f]{40}$/);
  expect(third.admit(first.consoleKey ?? '', 'here')).toEqual({ ok: false, code: 'key-wrong' });
  expect(readFileSync(join(dataDir, 'access', 'console-key'), 'utf8').trim()).toBe(third.consoleKey);
});

test('devices made at the same moment are all kept', async () => {
  const dataDir = freeDataDir();
  const access = await lanAccess(dataDir);
  await Promise.all(Array.from({ length: 10 }, (_, n) => access.addDevice('signal', `${n}`)));
  expect((await lanAccess(dataDir)).devices().map(({ label }) => label)).toEqual([...'0123456789']);
});

test('wrong keys are counted by address and forgotten after a minute', () => {
  const wrongKeys = createWrongKeys();
  const tries = Array.from({ length: WRONG_KEYS_A_MINUTE }, () => wrongKeys.tooMany('a', 0));
  expect(tries).not.toContain(true);
  expect(wrongKeys.tooMany('a', 1)).toBe(true);
  expect(wrongKeys.tooMany('b', 1)).toBe(false);
  expect(wrongKeys.tooMany('a', 60_000)).toBe(false);
});
