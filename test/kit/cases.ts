/** With `BY_THE_MARK_TESTS=all` (.ci/nightly) the heaviest tests take all of their cases, otherwise a quarter. */
const TAKES_ALL = process.env.BY_THE_MARK_TESTS === 'all';

/** How many of so many cases a heavy test takes this time; at least one. */
export const cases = (all: number): number => (TAKES_ALL ? all : Math.ceil(all / 4));
