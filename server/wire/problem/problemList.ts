import type { Problem, ProblemCode, ProblemPlace, Result } from '../../core/errors.ts';
import { ok, refused } from '../../core/errors.ts';

/** As many problems as a person will read in one go; the rest are counted. */
export const PROBLEMS_SHOWN = 50;

/** Gathers the problems of one input, so that all are told at once. */
export class ProblemList {
  readonly #kept: Problem[] = [];
  #further: { readonly at: ProblemPlace; count: number } | undefined;

  add(code: ProblemCode, at: ProblemPlace, found: string, wanted: string): void {
    if (this.#kept.length < PROBLEMS_SHOWN) this.#kept.push({ code, at, found, wanted });
    else if (this.#further === undefined) this.#further = { at, count: 1 };
    else this.#further.count += 1;
  }

  /** How many have been added, those beyond the shown ones counted too. */
  get count(): number {
    return this.#kept.length + (this.#further?.count ?? 0);
  }

  /** Whether further ones are only counted: their words need not be made. */
  get isFull(): boolean {
    return this.#kept.length >= PROBLEMS_SHOWN;
  }

  /** The value, if nothing was wrong with it. */
  result<T>(value: T): Result<T> {
    return this.count === 0 ? ok(value) : refused(this.#all());
  }

  #all(): readonly Problem[] {
    if (this.#further === undefined) return this.#kept;
    const { at, count } = this.#further;
    const found = `${count} more problem${count === 1 ? '' : 's'} from here on`;
    return [...this.#kept, { code: 'too-many', at, found, wanted: 'the ones above mended first' }];
  }
}
