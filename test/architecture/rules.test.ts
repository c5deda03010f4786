import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { freeDataDir } from '../kit/freeDataDir.ts';
import * as order from './orderRules.ts';
import { type House, readHouse } from './readHouse.ts';
import { readSource } from './readSource.ts';
import * as rules from './rules.ts';

const MANIFEST = JSON.stringify({
  dependencies: { express: '5', zod: '4' },
  devDependencies: { preact: '11', vitest: '4' },
});

/** A small house, really on disk. */
function houseOf(files: Readonly<Record<string, string>>): House {
  const dir = freeDataDir();
  for (const [path, text] of Object.entries({ 'package.json': MANIFEST, ...files })) {
    mkdirSync(dirname(join(dir, path)), { recursive: true });
    writeFileSync(join(dir, path), text);
  }
  return readHouse(dir);
}

type Rule = (house: House) => string[];
const long = '// a line\n'.repeat(301);

it.each<[breach: string, rule: Rule, files: Record<string, string>, told: string]>([
  [
    'a room above',
    rules.importsRunOneWay,
    { 'server/core/a.ts': `import { b } from '../wire/b.ts';` },
    'server/core/a.ts (core) imports server/wire/b.ts (wire)',
  ],
  [
    'a comment that points to a file that has moved',
    order.commentsPointToFiles,
    {
      'server/core/a.ts': '/** See rip/b.ts and `c.ts`; not node.js. */',
      'server/core/saw/b.ts': '',
      'server/wire/c.ts': '',
    },
    'server/core/a.ts points to rip/b.ts',
  ],
  [
    'a sibling',
    rules.importsRunOneWay,
    { 'server/web/a.ts': `export { b } from '../journal/b.ts';` },
    '(web) imports server/journal/b.ts (journal)',
  ],
  [
    'a sibling by type only',
    rules.importsRunOneWay,
    { 'server/live/a.ts': `import type { B } from '../journal/b.ts';` },
    '(live) imports',
  ],
  [
    'a sibling by a type in passing',
    rules.importsRunOneWay,
    { 'server/live/a.ts': `let b: import('../journal/b.ts').B;` },
    '(live) imports',
  ],
  [
    'a sibling when it is needed',
    rules.importsRunOneWay,
    { 'audio/a.ts': `const b = await import('../server/web/b.ts');` },
    '(audio) imports',
  ],
  [
    'a sibling as a worker',
    rules.importsRunOneWay,
    { 'server/live/a.ts': `new Worker(new URL('../workers/door.mjs', import.meta.url));` },
    '(live) imports',
  ],
  [
    'app.ts from a room',
    rules.importsRunOneWay,
    { 'server/web/a.ts': `import { createApp } from '../app.ts';` },
    '(web) imports server/app.ts (app)',
  ],
  [
    'a room from a page',
    rules.importsRunOneWay,
    { 'client/a.tsx': `import { b } from '../server/live/b.ts'; export const A = () => <p>don't</p>;` },
    '(client) imports server/live/b.ts (live)',
  ],
  [
    'a test from the program',
    rules.importsRunOneWay,
    { 'server/signals/a.ts': `import '../../test/kit/b.ts';` },
    '(signals) imports test/kit/b.ts (test)',
  ],
  [
    'several rooms in a command',
    rules.onlyAppJoinsRooms,
    { 'server/commands/a.ts': `import '../live/b.ts'; import '../../audio/c.ts';` },
    'several rooms (live, audio)',
  ],
  [
    'the start from app.ts',
    rules.nothingImportsTheStart,
    { 'server/app.ts': `import { cli } from './cli.ts';` },
    'server/app.ts imports server/cli.ts: only server/main.ts does',
  ],
  [
    'a cycle of three, one by type',
    rules.noCycles,
    {
      'server/core/a.ts': `import './b.ts';`,
      'server/core/b.ts': `import type { C } from './c.ts';`,
      'server/core/c.ts': `export * from './a.ts';`,
    },
    'server/core/a.ts -> server/core/b.ts -> server/core/c.ts -> server/core/a.ts',
  ],
  [
    'a file that imports itself',
    rules.noCycles,
    { 'server/core/a.ts': `import './a.ts';` },
    'server/core/a.ts -> server/core/a.ts',
  ],
  [
    'a package in the core',
    rules.packagesAreListed,
    { 'server/core/a.ts': `import { z } from 'zod';` },
    'imports zod: it is not on the list of core',
  ],
  [
    'Node in the core',
    rules.packagesAreListed,
    { 'server/core/a.ts': `import { readFile } from 'node:fs/promises';` },
    'imports node:fs/promises: it is not on the list of core',
  ],
  [
    'a package in a page',
    rules.packagesAreListed,
    { 'client/a.ts': `import express from 'express';` },
    'imports express: it is not on the list of client',
  ],
  [
    'a package that a packed program lacks',
    rules.packagesAreListed,
    { 'server/web/a.ts': `import { h } from 'preact';` },
    'imports preact: it is not among the dependencies',
  ],
  [
    'a package that nobody installed',
    rules.packagesAreListed,
    { 'test/a.ts': `import '@some/where/deep';` },
    'imports @some/where/deep: it is not among the packages',
  ],
  [
    'chance in the core',
    rules.coreIsPure,
    { 'server/core/a.ts': 'export const a = () => Math.random();' },
    'uses Math.random',
  ],
  [
    'chance by another way',
    rules.coreIsPure,
    { 'server/core/a.ts': `export const a = () => Math['random']();` },
    'uses Math.random',
  ],
  ['the clock in the core', rules.coreIsPure, { 'server/core/a.ts': 'export const a = Date.now();' }, 'uses Date'],
  [
    'another clock in the core',
    rules.coreIsPure,
    { 'server/core/a.ts': 'const { now } = performance;' },
    'uses performance',
  ],
  [
    'an import without its ending',
    rules.importsNameTheirFile,
    { 'server/core/a.ts': `import './b';` },
    `imports './b': write`,
  ],
  [
    'an import with the ending of what it becomes',
    rules.importsNameTheirFile,
    { 'server/core/a.ts': `import './b.js';` },
    `imports './b.js': write`,
  ],
  ['something at the top', rules.topIsTidy, { 'notes.md': '' }, 'notes.md stands at the top'],
  ['a folder at the top', rules.topIsTidy, { 'lib/a.ts': '' }, 'lib stands at the top'],
  ['a default export', rules.exportsAreNamed, { 'server/core/a.ts': 'export default 1;' }, 'has a default export'],
  [
    'a default export by name',
    rules.exportsAreNamed,
    { 'server/core/a.ts': 'const a = 1; export { a as default };' },
    'has a default export',
  ],
  ['a test left out', rules.everyTestRuns, { 'test/a.test.ts': `it.skip('a', () => {});` }, 'has it.skip'],
  [
    'a table of tests left out',
    rules.everyTestRuns,
    { 'test/a.test.ts': `describe.todo.each([1])('a');` },
    'has describe.todo',
  ],
  ['a test alone', rules.everyTestRuns, { 'test/a.test.ts': `test.concurrent.only('a', () => {});` }, 'has test.only'],
  [
    'a test left out by an option',
    rules.everyTestRuns,
    { 'test/a.test.ts': `it('a', { skip: true }, () => {});` },
    'has it({ skip })',
  ],
  [
    'a test left out now and then',
    rules.everyTestRuns,
    { 'test/a.test.ts': `it.skipIf(process.env.CI)('a', () => {});` },
    'has it.skipIf',
  ],
  [
    'a figure written by hand',
    (house) => order.figuresAreWrittenOnce(house, {}),
    { 'client/a.ts': `export const a = (deg: number) => deg.toFixed(1) + '°';` },
    'client/a.ts calls toFixed: figures are written in server/core/figures/',
  ],
  [
    'one that may be missing',
    (house) => order.figuresAreWrittenOnce(house, {}),
    { 'audio/a.ts': `export const a = (s?: number) => s?.['toPrecision'](3);` },
    'audio/a.ts calls toPrecision',
  ],
  [
    'an excuse for writing what is not written',
    (house) => order.figuresAreWrittenOnce(house, { 'client/a.ts': 'why' }),
    { 'client/a.ts': 'export const a = { toFixed: 1 };' },
    'take it off the list',
  ],
  [
    'a routine that is compared by its name',
    order.routinesAreAsked,
    { 'server/live/a.ts': `export const a = (routine: string) => routine === 'even turning';` },
    `server/live/a.ts names the routine 'even turning'`,
  ],
  [
    'a routine as a key',
    order.routinesAreAsked,
    { 'client/a.ts': `export const a = { 'mark by mark': 1 };` },
    `client/a.ts names the routine 'mark by mark'`,
  ],
  [
    'a routine in back quotes',
    order.routinesAreAsked,
    { 'server/core/run/a.ts': 'export const a = `following`;' },
    `names the routine 'following'`,
  ],
  ['a long file', (house) => rules.filesAreShort(house, {}), { 'server/core/a.ts': long }, 'has 301 lines'],
  [
    'an excuse for nothing',
    (house) => rules.filesAreShort(house, { 'server/core/b.ts': 'why' }),
    { 'server/core/b.ts': '' },
    'take it off the list',
  ],
])('tells of %s', (_, rule, files, told) => {
  const breaches = rule(houseOf(files));
  expect(breaches).toHaveLength(1);
  expect(breaches[0]).toContain(told);
});

it('finds nothing in a tidy house', () => {
  const house = houseOf({
    'README.md': '',
    'server/main.ts': `import { cli } from './cli.ts';`,
    'server/cli.ts': `import { serve } from './commands/serveCommand.ts';`,
    'server/commands/serveCommand.ts': `import { createApp } from '../app.ts'; import { trouble } from '../journal/b.ts';`,
    'server/app.ts': `import { b } from './journal/b.ts'; import { w } from './web/w.ts'; import text from '../package.json' with { type: 'json' };`,
    'server/web/w.ts': `import express from 'express'; import { z } from '../wire/z.ts';`,
    'server/journal/b.ts': `import { readFile } from 'node:fs/promises';`,
    'server/wire/z.ts': `import { z } from 'zod'; import type { Mm } from '../core/mm.ts';`,
    // Words in comments, strings and keys are no use of them.
    'server/core/mm.ts': `// Date, Math.random, import './x'\nexport const mm = { Date: 'import "./y"', performance: (x: { Date: 1 }) => x.Date };`,
    'server/core/figures/f.ts': 'export const f = (deg: number) => deg.toFixed(1);',
    'client/a.tsx': `import { render } from 'preact'; import './a.css'; import sound from './a.mjs?url'; import type { Mm } from '../server/core/mm.ts';`,
    'client/vite.config.ts': `import { defineConfig } from 'vitest'; export default defineConfig({});`,
    'test/a.test.ts': `import { it } from 'vitest'; it.each([1])('skip', () => { list.only; skip(); (1).toFixed(2); });`,
  });
  for (const rule of Object.values(rules))
    if (typeof rule === 'function' && rule !== rules.filesAreShort) expect((rule as Rule)(house)).toEqual([]);
  expect(rules.filesAreShort(house, {})).toEqual([]);
  expect(order.figuresAreWrittenOnce(house, {})).toEqual([]);
});

it('lets a routine be named where routines are, at the door, in texts and in tests, and within longer words', () => {
  const named = `export const a = 'even turning';`;
  const house = houseOf({
    'server/core/routine/a.ts': named,
    'server/core/text/b.ts': named,
    'server/wire/c.ts': named,
    'test/d.ts': named,
    'client/e.ts': `export const e = 'even turning, wheel and marks'; // 'even turning'`,
  });
  expect(order.routinesAreAsked(house)).toEqual([]);
});

it('refuses a file that it cannot read, and one that stands in no room', () => {
  expect(() => readSource('server/core/a.ts', 'const = ;')).toThrow('server/core/a.ts: ');
  expect(() => rules.importsRunOneWay(houseOf({ 'server/attic/a.ts': '' }))).toThrow('stands in no room');
});
