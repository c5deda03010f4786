import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';

const top = join(import.meta.dirname, '../..');

/** Compiles each text as a file of a room, under that room's own options. Gives the first error of each, by name. */
function errorsIn(room: string, texts: Readonly<Record<string, string>>): Record<string, string> {
  // Inside the checkout, so that packages and their types are found as from the room itself.
  const cache = join(top, 'node_modules/.cache');
  mkdirSync(cache, { recursive: true });
  const dir = mkdtempSync(join(cache, 'walls-'));
  onTestFinished(() => rmSync(dir, { recursive: true }));
  const names = Object.keys(texts);
  for (const name of names) writeFileSync(join(dir, `${name}.ts`), texts[name] ?? '');
  writeFileSync(
    join(dir, 'tsconfig.json'),
    JSON.stringify({
      extends: join(top, room, 'tsconfig.json'),
      compilerOptions: { rootDir: '.', outDir: './out', tsBuildInfoFile: './out/info' },
      include: ['*.ts'],
      references: [],
    }),
  );
  const compiled = spawnSync(
    process.execPath,
    [join(top, 'node_modules/typescript/bin/tsc'), '-p', dir, '--pretty', 'false'],
    {
      encoding: 'utf8',
      cwd: dir,
    },
  );
  const errors: Record<string, string> = {};
  for (const line of compiled.stdout.split('\n')) {
    const [, file, error] = /^(.+?)\(\d+,\d+\): error (.+)$/.exec(line) ?? [];
    if (file === undefined || error === undefined) continue;
    errors[relative(dir, join(dir, file)).replace(/\.ts$/, '')] ??= error;
  }
  return errors;
}

const OUTSIDE = {
  process: 'export const a = process.env;',
  buffer: 'export const a = Buffer.alloc(1);',
  'node-fs': `import { readFileSync } from 'node:fs'; export const a = readFileSync;`,
  timer: 'setTimeout(() => {}, 1);',
  console: 'console.log(1);',
  fetch: `export const a = fetch('');`,
  document: 'export const a = document.title;',
  window: 'export const a = window;',
  element: 'export let a: HTMLElement;',
};
const FINE = { fine: 'export const a = (x: number): number => Math.hypot(x, 1);' };

it.each(['server/core', 'server/wire'])('%s sees neither Node nor the page', (room) => {
  const errors = errorsIn(room, { ...OUTSIDE, ...FINE });
  expect(Object.keys(errors).sort()).toEqual(Object.keys(OUTSIDE).sort());
  // Unknown, and not wrong in some other way.
  for (const error of Object.values(errors)) expect(error).toMatch(/^TS(?:2304|2307|2580|2584|2591):/);
});

it('the house is strict: an index may be missing, an option is not undefined, enums are refused', () => {
  const errors = errorsIn('server/core', {
    index: 'export const a = (list: readonly number[]): number => list[0];',
    option: 'export const a: { b?: number } = { b: undefined };',
    enum: 'export enum A { B }',
    ...FINE,
  });
  expect(Object.keys(errors).sort()).toEqual(['enum', 'index', 'option']);
});
