import * as fc from 'fast-check';

/**
 * Asserts a property that is not asynchronous. One place for the exception: the linter takes the first overload of
 * `fc.assert`, the one that gives a promise, for every call of it.
 */
export function holds<Ts>(property: fc.IProperty<Ts>, parameters?: fc.Parameters<Ts>): void {
  // biome-ignore lint/nursery/noFloatingPromises: a property that is not asynchronous gives no promise
  fc.assert(property, parameters);
}
