import fc from 'fast-check';

export interface SomeRows {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly weight: readonly number[];
}

/** Rows as a pick-up may have them: girths that rise by 20 to 400, bevels of either hand, weights over two decades. */
export const someRows = (fewest: number, most: number): fc.Arbitrary<SomeRows> =>
  fc
    .array(
      fc.record({
        span: fc.integer({ min: 40, max: 800 }).map((halves) => halves / 2),
        y: fc.integer({ min: -450, max: 450 }).map((tenths) => tenths / 10),
        weight: fc.integer({ min: 1, max: 100 }).map((tenths) => tenths / 10),
      }),
      { minLength: fewest, maxLength: most },
    )
    .map((rows) => {
      let x = 0;
      return {
        x: rows.map(({ span }) => {
          x += span;
          return x;
        }),
        y: rows.map(({ y }) => y),
        weight: rows.map(({ weight }) => weight),
      };
    });

/** From following every row to as good as straight, for spans of some hundred. */
export const someSmoothing = fc.double({ min: 1, max: 11, noNaN: true }).map((log) => 10 ** log);
