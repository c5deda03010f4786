/** The rules of the house. Each gives one line for each breach, naming the file and what to do; none when it holds. */
import type { House } from './readHouse.ts';
import type { Source } from './readSource.ts';
import { isRelative, packageOf, type Room, roomOf, SIBLINGS, targetOf } from './rooms.ts';

/** npm packages that the pure core may use. */
export const CORE_PACKAGES: readonly string[] = [];
/** npm packages of what crosses a boundary; it runs in the browser too. */
export const WIRE_PACKAGES: readonly string[] = ['zod', 'csv-parse'];
/** npm packages that the pages carry to a tablet. */
export const CLIENT_PACKAGES: readonly string[] = ['preact', 'd3-scale', 'd3-shape', 'socket.io-client'];

/** What each room may import; a sibling: itself, wire and core. */
const FLOORS: Readonly<Partial<Record<Room, readonly Room[]>>> = {
  core: ['core'],
  wire: ['wire', 'core'],
  text: ['text', 'wire', 'core'],
  client: ['client', 'wire', 'core'],
  app: ['app', 'text', 'wire', 'core', ...SIBLINGS],
  shell: ['shell', 'app', 'text', 'wire', 'core', ...SIBLINGS],
  test: ['test', 'shell', 'app', 'client', 'text', 'wire', 'core', ...SIBLINGS],
};

const floorsOf = (room: Room): readonly Room[] => FLOORS[room] ?? [room, 'text', 'wire', 'core'];

const isConfig = ({ path }: Source): boolean => path.endsWith('.config.ts');
const relativeImports = (source: Source): string[] =>
  source.imports.filter(isRelative).map((specifier) => targetOf(source, specifier));

export function importsRunOneWay({ sources }: House): string[] {
  return sources.flatMap((source) => {
    const room = roomOf(source.path);
    return relativeImports(source)
      .filter((target) => isCode(target) && !floorsOf(room).includes(roomOf(target)))
      .map(
        (target) =>
          `${source.path} (${room}) imports ${target} (${roomOf(target)}): imports run one way, rooms meet in app.ts`,
      );
  });
}
/** Every process and thread begins with it. */
const BEGINNING = 'server/readTypescript.mjs';
// package.json and the pages' markup stand in no room.
const isCode = (target: string): boolean => target.includes('/') && !target.endsWith('.html') && target !== BEGINNING;

export function onlyAppJoinsRooms({ sources }: House): string[] {
  return sources
    .filter(({ path }) => roomOf(path) === 'shell')
    .flatMap((source) => {
      const rooms = new Set(relativeImports(source).filter(isCode).map(roomOf).filter(isSibling));
      return rooms.size > 1
        ? [`${source.path} imports several rooms (${[...rooms].join(', ')}): they meet in app.ts`]
        : [];
    });
}
const isSibling = (room: Room): boolean => SIBLINGS.some((sibling) => sibling === room);

const STARTS: Readonly<Record<string, string>> = {
  'server/main.ts': 'server/door.mjs',
  'server/cli.ts': 'server/main.ts',
};
export function nothingImportsTheStart({ sources }: House): string[] {
  return sources
    .filter(({ path }) => roomOf(path) !== 'test')
    .flatMap((source) =>
      relativeImports(source)
        .filter((target) => STARTS[target] !== undefined && STARTS[target] !== source.path)
        .map((target) => `${source.path} imports ${target}: only ${STARTS[target]} does`),
    );
}

/** Type imports count: two files that need each other's types are one idea in two files. */
export function noCycles({ sources }: House): string[] {
  const byPath = new Map(sources.map((source) => [source.path, relativeImports(source)]));
  const done = new Set<string>();
  const cycles: string[] = [];
  const visit = (path: string, way: readonly string[]): void => {
    const at = way.indexOf(path);
    if (at >= 0) cycles.push(`${[...way.slice(at), path].join(' -> ')}: a cycle of imports`);
    if (at >= 0 || done.has(path)) return;
    for (const target of byPath.get(path) ?? []) visit(target, [...way, path]);
    done.add(path);
  };
  for (const path of byPath.keys()) visit(path, []);
  return cycles;
}

export function packagesAreListed({ sources, dependencies, devDependencies }: House): string[] {
  const lists: Partial<Record<Room, readonly string[]>> = {
    core: CORE_PACKAGES,
    wire: WIRE_PACKAGES,
    client: CLIENT_PACKAGES,
  };
  return sources.flatMap((source) => {
    const room = roomOf(source.path);
    const list = isConfig(source) ? undefined : lists[room];
    // Pages are built before they are packed; everything else of a packed program finds only its dependencies.
    const mayBeDev = room === 'client' || room === 'test';
    return source.imports
      .filter((specifier) => !isRelative(specifier))
      .flatMap((specifier) => {
        const name = packageOf(specifier);
        if (list !== undefined && !list.includes(name))
          return [`${source.path} imports ${specifier}: it is not on the list of ${room} (test/architecture/rules.ts)`];
        if (name === 'node:' || dependencies.has(name) || (mayBeDev && devDependencies.has(name))) return [];
        return [
          `${source.path} imports ${specifier}: it is not among the ${mayBeDev ? 'packages' : 'dependencies'} of package.json`,
        ];
      });
  });
}

/** What the compiler's walls let through: they stand in every JavaScript, but answer differently each time. */
const IMPURE = ['Math.random', 'Date', 'performance', 'crypto', 'Temporal', 'globalThis', 'eval'];
export function coreIsPure({ sources }: House): string[] {
  return sources
    .filter(({ path }) => roomOf(path) === 'core')
    .flatMap(({ path, names }) =>
      IMPURE.filter((name) => names.has(name)).map(
        (name) => `${path} uses ${name}: time and chance come in with the event`,
      ),
    );
}

const ENDINGS = /\.(?:tsx?|mjs|json|css)$/;
export function importsNameTheirFile({ sources }: House): string[] {
  return sources.flatMap((source) =>
    source.imports
      .filter((specifier) => isRelative(specifier) && !ENDINGS.test(specifier.replace(/\?.*$/, '')))
      .map(
        (specifier) => `${source.path} imports '${specifier}': write the file's ending (.ts, .tsx, .mjs, .json, .css)`,
      ),
  );
}

const MAY_STAND_AT_THE_TOP = [
  'package.json',
  'package-lock.json',
  'README.md',
  'DEVELOPERS.md',
  'LICENSE',
  'tsconfig.json',
  'biome.json',
  'server',
  'client',
  'audio',
  'test',
];
export const topIsTidy = ({ top }: House): string[] =>
  top
    .filter((name) => !MAY_STAND_AT_THE_TOP.includes(name))
    .map((name) => `${name} stands at the top of the house: it belongs in a room, or in test/architecture/rules.ts`);

export const exportsAreNamed = ({ sources }: House): string[] =>
  sources
    .filter((source) => source.hasDefaultExport && !isConfig(source))
    .map(({ path }) => `${path} has a default export: name it`);

export const everyTestRuns = ({ sources }: House): string[] =>
  sources.flatMap(({ path, skips }) => skips.map((skip) => `${path} has ${skip}: every test runs`));

/** The longest that a file is without a reason. */
export const LONG = 300;
/** Files past that, each with its reason. */
export const LONG_FOR_A_REASON: Readonly<Record<string, string>> = {
  'test/core/makePlan.test.ts': 'the plan as a whole: one job looked at from every side, each check short',
};
export function filesAreShort(
  { sources }: House,
  reasons: Readonly<Record<string, string>> = LONG_FOR_A_REASON,
): string[] {
  const long = sources.filter(({ lines }) => lines > LONG);
  return [
    ...long
      .filter(({ path }) => reasons[path] === undefined)
      .map(
        ({ path, lines }) =>
          `${path} has ${lines} lines: past ${LONG} a file needs a reason (test/architecture/rules.ts)`,
      ),
    ...Object.keys(reasons)
      .filter((path) => !long.some((source) => source.path === path))
      .map((path) => `${path} is excused for its length, but is not long (any more): take it off the list`),
  ];
}
