import { join } from 'node:path';
import { expect, it } from 'vitest';
import * as order from './architecture/orderRules.ts';
import { readHouse } from './architecture/readHouse.ts';
import * as rules from './architecture/rules.ts';

const house = readHouse(join(import.meta.dirname, '..'));

it.each([
  ['imports run one way, and siblings do not import each other', rules.importsRunOneWay],
  ['only app.ts joins several rooms', rules.onlyAppJoinsRooms],
  ['nothing imports main and cli', rules.nothingImportsTheStart],
  ['there is no cycle of imports, types included', rules.noCycles],
  ['packages are on their lists', rules.packagesAreListed],
  ['the core knows no clock and no chance', rules.coreIsPure],
  ['relative imports name their file with its ending', rules.importsNameTheirFile],
  ['nothing stands at the top that does not belong there', rules.topIsTidy],
  ['exports are named', rules.exportsAreNamed],
  ['every test runs', rules.everyTestRuns],
  ['every folder of the core has its floor', order.coreHasFloors],
  ['folders are small', order.foldersAreSmall],
  ['no two files have one name', order.fileNamesAreUnique],
  ['no two exported types have one name', order.typeNamesAreUnique],
  ['routines are asked what they are, not compared by name', order.routinesAreAsked],
  ['what is exported is imported', order.exportsAreUsed],
  ['comments point to files that are there', order.commentsPointToFiles],
  ['figures are written in one place', (read: typeof house) => order.figuresAreWrittenOnce(read)],
  ['files are short, or have a reason', (read: typeof house) => rules.filesAreShort(read)],
] as const)('%s', (_, rule) => {
  expect(rule(house)).toEqual([]);
});

it('has read the whole house', () => {
  for (const room of [
    'server/core/run/step.ts',
    'server/journal/openJournal.ts',
    'client/vite.config.ts',
    'server/door.mjs',
  ])
    expect(house.sources.map(({ path }) => path)).toContain(room);
});
