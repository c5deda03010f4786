/** Lengths and feeds that people read are written in server/core/figures and nowhere else, so that a job has one notation. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const ROOT = new URL('../../', import.meta.url).pathname;

/** A figure with its unit behind it, and inches made by hand. */
const WRITTEN_BY_HAND = [
  /\$?\{[^{}]*\} ?(mm|m\/min|ft\/min)\b/,
  /toFixed\(\d\)\)?\}? ?(mm|in|ft)\b/,
  /(MM_PER_INCH|25\.4)\)+\.to(Fixed|Precision)/,
  /0\.3048\)+\.toFixed/,
  /\? 'millimetres' : 'inches'/,
];
/** Files that may, each with its reason. */
const EXCUSED: Readonly<Record<string, string>> = {
  'server/wire/length/readBevel.ts': 'asks which unit was meant, and so names both',
  'server/core/cures/sized.ts': 'writes exactly, for the job file',
  'server/wire/length/parseLength.ts': 'asks which unit was meant, and so names both',
  'server/core/simulate/simulateRun.ts': 'an error for the engineer, in the mm of the code',
};

const sourcesOf = (root: string): string[] =>
  ['server', 'client'].flatMap((room) =>
    readdirSync(`${root}${room}`, { recursive: true, encoding: 'utf8' })
      .map((path) => `${room}/${path}`)
      .filter((path) => /\.tsx?$/.test(path) && !/^server\/core\/figures\/|\/(dist|node_modules)\//.test(path)),
  );

const byHand = (text: string): string[] =>
  text
    .split('\n')
    .filter((line) => !/^\s*(\*|\/\/|\/\*)/.test(line) && WRITTEN_BY_HAND.some((form) => form.test(line)));

test('no other file writes a length or a feed', () => {
  const found = sourcesOf(ROOT).flatMap((path) =>
    EXCUSED[path] === undefined
      ? byHand(readFileSync(`${ROOT}${path}`, 'utf8')).map((line) => `${path}: ${line.trim()}`)
      : [],
  );
  expect(found).toStrictEqual([]);
});

test('the forms that are looked for are found', () => {
  // A dollar by itself, so that these are texts and no templates.
  const figure = (code: string, unit: string): string => `return \`\x24{${code}}${unit}\`;`;
  for (const line of [
    figure('mm.toFixed(1)', ' mm'),
    figure('roundedDown(feed)', ' m/min'),
    figure('(mm / MM_PER_INCH).toFixed(2)', ' in'),
    "const c = units === 'mm' ? 'millimetres' : 'inches';",
  ])
    expect(byHand(line)).toHaveLength(1);
  expect(byHand(figure('lengthText(mm, notation)', ' thick'))).toStrictEqual([]);
});
