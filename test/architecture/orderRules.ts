/** More rules of the house: where things stand inside its rooms, and what they are called. */
import { posix } from 'node:path';
import { ROUTINES } from '../../server/core/routine/routine.ts';
import type { House } from './readHouse.ts';
import type { Source } from './readSource.ts';
import { isRelative, roomOf, targetOf } from './rooms.ts';

const relativeImports = (source: Source): string[] =>
  source.imports.filter(isRelative).map((specifier) => targetOf(source, specifier));

/** The core from bottom to top: each of these imports only itself and what stands before it. Folders of `run` count by themselves. */
export const CORE_FLOORS: readonly string[] = [
  'rowAt.ts',
  'units.ts',
  'errors.ts',
  'numeric',
  'figures',
  'hull',
  'words',
  'job.ts',
  'warning.ts',
  'frame',
  'saw',
  'rip',
  'stack',
  'routine',
  'plan',
  'pace',
  'text',
  'makePlan.ts',
  'hand',
  'pedal',
  'track',
  'run/engine',
  'run/place',
  'run/call',
  'run/on',
  'run',
  'run/view',
  'simulate',
  'hearing',
  'sawn',
  'cures',
];
export function coreHasFloors({ sources }: House): string[] {
  return sources
    .filter(({ path }) => roomOf(path) === 'core')
    .flatMap((source) => {
      const floor = coreFloorOf(source.path);
      if (floor < 0)
        return [`${source.path} stands on no floor of the core: see CORE_FLOORS in test/architecture/orderRules.ts`];
      return relativeImports(source)
        .filter((target) => coreFloorOf(target) > floor)
        .map(
          (target) =>
            `${source.path} imports ${target}, which stands above it: see CORE_FLOORS in test/architecture/orderRules.ts`,
        );
    });
}
function coreFloorOf(path: string): number {
  const [, , first = '', second = '', third] = path.split('/');
  return CORE_FLOORS.indexOf(first === 'run' && third !== undefined ? `${first}/${second}` : first);
}

function grouped<T>(all: readonly T[], keyOf: (one: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const one of all) groups.set(keyOf(one), [...(groups.get(keyOf(one)) ?? []), one]);
  return groups;
}

/** As many files as a person takes in at a glance. */
const FILES_A_FOLDER = 16;
export function foldersAreSmall({ sources }: House): string[] {
  const folders = grouped(sources.filter(isProgram), ({ path }) => posix.dirname(path));
  return [...folders]
    .filter(([, files]) => files.length > FILES_A_FOLDER)
    .map(([folder, files]) => `${folder} has ${files.length} files: past ${FILES_A_FOLDER} it is two rooms in one`);
}
const isProgram = ({ path }: Source): boolean => roomOf(path) !== 'test';

/** Where something starts the name says so, and its folder what. */
const STARTS_BY_NAME = new Set(['main', 'door']);
export function fileNamesAreUnique({ sources }: House): string[] {
  const byName = grouped(sources.filter(isProgram), ({ path }) => posix.basename(path).replace(/\.\w+$/, ''));
  return [...byName]
    .filter(([name, files]) => files.length > 1 && !STARTS_BY_NAME.has(name))
    .map(([name, files]) => `${files.map(({ path }) => path).join(' and ')} are both called ${name}`);
}

export function typeNamesAreUnique({ sources }: House): string[] {
  const types = sources
    .filter(isProgram)
    .flatMap(({ path, exports }) => exports.filter(({ isType }) => isType).map(({ name }) => ({ path, name })));
  return [...grouped(types, ({ name }) => name)]
    .filter(([, all]) => all.length > 1)
    .map(([name, all]) => `${all.map(({ path }) => path).join(' and ')} both export a type ${name}`);
}

/** A routine's name is written where routines are, at the door, and where it is told to people; all others ask what it is. */
const NAMES_ROUTINES = ['server/core/routine/', 'server/core/text/', 'server/wire/'];
export function routinesAreAsked({ sources }: House): string[] {
  return sources
    .filter((source) => isProgram(source) && !NAMES_ROUTINES.some((room) => source.path.startsWith(room)))
    .flatMap(({ path, strings }) =>
      ROUTINES.filter((name) => strings.has(name)).map(
        (name) => `${path} names the routine '${name}': ask what it is (server/core/routine/plannedRoutine.ts)`,
      ),
    );
}

/** A test is a user too: what it looks at by itself may be exported for it. */
export function exportsAreUsed({ sources }: House): string[] {
  const taken = new Set(
    sources.flatMap((source) =>
      source.takes.filter(({ from }) => isRelative(from)).map(({ from, name }) => `${targetOf(source, from)} ${name}`),
    ),
  );
  return sources
    .filter((source) => isProgram(source) && !taken.has(`${source.path} *`))
    .flatMap(({ path, exports }) =>
      exports
        .filter(({ name }) => !taken.has(`${path} ${name}`))
        .map(({ name }) => `${path} exports ${name}, which nobody imports`),
    );
}

const FIGURE_MAKERS = ['toFixed', 'toPrecision', 'toExponential'];
const FIGURES = 'server/core/figures/';
/** Files beside the figures that turn numbers into text, each with its reason. */
export const WRITES_NUMBERS_FOR_A_REASON: Readonly<Record<string, string>> = {
  'client/kit/page/coordinate.ts': 'numbers in the markup of a drawing, which nobody reads',
  'server/wire/message/markCode.ts':
    'what the letters of a printed strip are made of: they stay, however figures are written',
};
/** So that a figure is written one way wherever it stands. Tests may write as they like. */
export function figuresAreWrittenOnce(
  { sources }: House,
  reasons: Readonly<Record<string, string>> = WRITES_NUMBERS_FOR_A_REASON,
): string[] {
  const writing = sources.filter(isProgram).flatMap(({ path, calls }) => {
    const call = FIGURE_MAKERS.find((name) => calls.has(name));
    return call === undefined || path.startsWith(FIGURES) ? [] : [{ path, call }];
  });
  return [
    ...writing
      .filter(({ path }) => reasons[path] === undefined)
      .map(({ path, call }) => `${path} calls ${call}: figures are written in ${FIGURES}`),
    ...Object.keys(reasons)
      .filter((path) => !writing.some((file) => file.path === path))
      .map((path) => `${path} is excused for writing numbers, but writes none (any more): take it off the list`),
  ];
}

/** A comment that points to a file that is gone, or has moved, sends its reader nowhere. */
export function commentsPointToFiles({ sources }: House): string[] {
  const paths = sources.map(({ path }) => `/${path}`);
  return sources.flatMap(({ path, filesNamed }) =>
    [...filesNamed]
      .filter((name) => !paths.some((each) => each.endsWith(`/${name}`)))
      .map((name) => `${path} points to ${name}, which is not there`),
  );
}
