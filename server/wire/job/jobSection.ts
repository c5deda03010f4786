/** Reads the fields of one object of the job file: each by name, with its range and its default. */
import type { ProblemCode, ProblemPlace } from '../../core/errors.ts';
import { lengthText } from '../../core/figures/lengths.ts';
import type { Notation } from '../../core/figures/notation.ts';
import type { Exact } from '../../core/figures/rounding.ts';
import { FINEST, isTooFine, WANTED_COARSER } from '../length/magnitude.ts';
import { readLength, type Units } from '../length/parseLength.ts';
import { isOneLine, WITHOUT_HIDDEN } from '../problem/hidden.ts';
import { ProblemList } from '../problem/problemList.ts';
import { quote, showFound, showName } from '../problem/showFound.ts';
import { nearestName } from './nearestName.ts';

/** What is gathered while a job file is read. */
export interface JobReading {
  readonly problems: ProblemList;
  /** Dotted names of the fields that were filled in. */
  readonly defaults: string[];
  units: Units;
  /** In which lengths are told. */
  notation: Notation;
}
export const newReading = (): JobReading => ({
  problems: new ProblemList(),
  defaults: [],
  units: 'mm',
  notation: 'mm',
});

/** A range of numbers. In mm for lengths. */
export interface Range {
  readonly atLeast: number;
  readonly atMost: number;
  /** In a list: how much more than the one before it each is at least. */
  readonly step?: number;
}

/** How many items a list has. */
interface Count {
  readonly atLeast: number;
  readonly atMost: number;
}

/** As much as fits into the head of a sheet. */
export const TEXT_CHARS = 120;

/**
 * A field that is wrong is noted in the reading's problems, and a stand-in is given back, so that reading goes on and
 * everything is told in one go. A job with problems is never handed out, so no stand-in leaves this room.
 */
export class JobSection {
  readonly #path: string;
  readonly #fields: Readonly<Record<string, unknown>>;
  readonly #known: readonly string[];
  readonly #reading: JobReading;

  /** `elsewhere`: dotted names of fields in other sections, for a hint where one was put into the wrong place. */
  constructor(
    value: unknown,
    path: string,
    known: readonly string[],
    reading: JobReading,
    elsewhere: readonly string[] = [],
  ) {
    this.#path = path;
    this.#known = known;
    this.#reading = reading;
    this.#fields = isObject(value) ? value : {};
    if (!isObject(value) && value !== undefined)
      reading.problems.add(
        'wrong-type',
        { field: path },
        showFound(value),
        `an object in braces with fields such as "${known[0]}"`,
      );
    for (const name of Object.keys(this.#fields)) if (!known.includes(name)) this.#refuseUnknown(name, elsewhere);
  }

  /** What stands there as it is; undefined where the field is left out. Own fields only: `__proto__` is no field. */
  raw(name: string): unknown {
    return Object.hasOwn(this.#fields, name) ? this.#fields[name] : undefined;
  }

  isGiven(name: string): boolean {
    return this.raw(name) !== undefined;
  }

  section(name: string, known: readonly string[], elsewhere: readonly string[] = []): JobSection {
    return new JobSection(this.raw(name), this.#dotted(name), known, this.#reading, elsewhere);
  }

  /** One line of text. */
  text(name: string, wanted: string, fallback?: string, atMostChars = TEXT_CHARS): string {
    const value = this.#orDefault(name, wanted, fallback);
    if (typeof value === 'string') {
      const text = value.trim();
      if (isOneLine(text, atMostChars)) return text;
    }
    if (value !== undefined)
      this.refuse(
        typeof value === 'string' ? 'out-of-range' : 'wrong-type',
        name,
        `${wanted}, one line of 1 to ${atMostChars} characters, ${WITHOUT_HIDDEN}`,
      );
    return '';
  }

  /** Text, or a number that serves as a name: a frame may be called 14. */
  label(name: string, wanted: string, fallback: string): string {
    const value = this.raw(name);
    return typeof value === 'number' && Number.isFinite(value) ? `${value}` : this.text(name, wanted, fallback);
  }

  choice<T extends string>(name: string, options: readonly [T, ...T[]], fallback?: T): T {
    const wanted = options.map((option) => quote(option)).join(' or ');
    const value = this.#orDefault(name, wanted, fallback);
    const chosen = options.find((option) => option === value);
    if (chosen === undefined && value !== undefined)
      this.refuse(typeof value === 'string' ? 'out-of-range' : 'wrong-type', name, wanted);
    return chosen ?? options[0];
  }

  /** One of the names, in full or as it is written short. */
  spelled<T extends string>(name: string, options: Readonly<Record<T, readonly string[]>>, fallback: T): T {
    const names = Object.keys(options) as [T, ...T[]];
    const value = this.raw(name);
    const written = typeof value === 'string' ? value.trim().toLowerCase().replace(/\.$/, '') : undefined;
    const meant = names.find((option) => written === option || options[option].includes(written ?? ''));
    return meant ?? this.choice(name, names, fallback);
  }

  yesOrNo(name: string): boolean {
    const value = this.raw(name);
    if (typeof value !== 'boolean') this.refuse('wrong-type', name, 'true or false');
    return value === true;
  }

  number(name: string, noun: string, range: Range, fallback?: number): number {
    const wanted = `${noun} ${describeRange(range)}`;
    const value = this.#orDefault(name, wanted, fallback);
    if (value === undefined) return Number.NaN;
    return this.#within(value, name, wanted, range);
  }

  /** In mm, as are the range and the default. */
  length(name: string, noun: string, range: Range, fallbackMm?: number): number {
    const wanted = `${noun} ${describeRange(range, this.#reading.notation)}`;
    const value = this.raw(name);
    if (value !== undefined) return this.#lengthWithin(value, name, wanted, range);
    return Number(this.#orDefault(name, wanted, fallbackMm));
  }

  /** Lengths in mm, strictly rising. */
  lengths(name: string, noun: string, range: Range, count: Count): readonly number[] {
    const value = this.raw(name);
    const wanted = `a list of ${count.atLeast} to ${count.atMost} ${noun}`;
    if (!Array.isArray(value)) this.refuse('wrong-type', name, wanted);
    else if (value.length < count.atLeast) this.refuse('too-few', name, wanted);
    else if (value.length > count.atMost) this.refuse('too-many', name, wanted);
    else {
      const each = `${noun} ${describeRange(range, this.#reading.notation)}`;
      const read = Array.from(value, (item, index) => this.#lengthWithin(item, `${name}[${index}]`, each, range));
      this.#mustRise(read, value, (index) => `${name}[${index}]`, range.step);
      return read;
    }
    return [];
  }

  /** Two numbers, the first less than the second. */
  interval(name: string, noun: string, range: Range, fallback: readonly [number, number]): readonly [number, number] {
    const wanted = `${noun} as [least, greatest], each ${describeRange(range)}`;
    const value = this.#orDefault(name, wanted, fallback);
    if (!Array.isArray(value) || value.length !== 2) {
      this.refuse('wrong-type', name, wanted);
      return fallback;
    }
    const least = this.#within(value[0], `${name}[0]`, wanted, range);
    const greatest = this.#within(value[1], `${name}[1]`, wanted, range);
    if (least >= greatest)
      this.#add('out-of-order', name, `[${least}, ${greatest}]`, `${noun}, the least less than the greatest`);
    return [least, greatest];
  }

  /** Pairs of numbers, each column strictly rising; an empty list where the field is left out. */
  pairs(name: string, noun: string, range: Range, atMost: number): readonly (readonly [number, number])[] {
    const wanted = `${noun}: a list of at most ${atMost} pairs, each number ${describeRange(range)}`;
    const value = this.#orDefault(name, wanted, []);
    if (!Array.isArray(value)) this.refuse('wrong-type', name, wanted);
    else if (value.length > atMost) this.refuse('too-many', name, wanted);
    else {
      const read = Array.from(value, (pair: unknown, index) => this.#pair(pair, `${name}[${index}]`, wanted, range));
      for (const side of [0, 1] as const) {
        const column = read.map((pair) => pair[side]);
        this.#mustRise(column, column, (index) => `${name}[${index}][${side}]`, range.step);
      }
      return read;
    }
    return [];
  }

  refuse(code: ProblemCode, name: string, wanted: string): void {
    this.#add(code, name, showFound(this.raw(name)), wanted);
  }

  /** Refuses the section as a whole. */
  refuseWhole(code: ProblemCode, found: string, wanted: string): void {
    this.#reading.problems.add(code, { field: this.#path }, found, wanted);
  }

  #pair(pair: unknown, name: string, wanted: string, range: Range): readonly [number, number] {
    if (Array.isArray(pair) && pair.length === 2)
      return [this.#within(pair[0], `${name}[0]`, wanted, range), this.#within(pair[1], `${name}[1]`, wanted, range)];
    this.#add('wrong-type', name, showFound(pair), wanted);
    return [Number.NaN, Number.NaN];
  }

  #lengthWithin(value: unknown, name: string, wanted: string, range: Range): number {
    const reading = readLength(value, this.#reading.units);
    if (reading.mm === undefined) this.#add(reading.code, name, showFound(value), `${wanted}: ${reading.wanted}`);
    else if (!isWithin(reading.mm, range)) this.#add('out-of-range', name, showFound(value), wanted);
    return reading.mm ?? Number.NaN;
  }

  #within(value: unknown, name: string, wanted: string, range: Range): number {
    if (typeof value === 'number' && isWithin(value, range) && !isTooFine(value)) return value;
    const more = typeof value === 'number' && isTooFine(value) ? `: ${WANTED_COARSER}` : '';
    this.#add(typeof value === 'number' ? 'out-of-range' : 'wrong-type', name, showFound(value), wanted + more);
    return Number.NaN;
  }

  #mustRise(
    read: readonly number[],
    written: readonly unknown[],
    place: (index: number) => string,
    leastStep = FINEST,
  ): void {
    for (const [index, value] of read.entries()) {
      const before = read[index - 1] ?? Number.NaN;
      if (index === 0 || !(value - before < leastStep * (1 - EXACT))) continue;
      const wanted = `more than ${showFound(written[index - 1])}, which stands before it`;
      const byMore = value > before ? `, by ${leastStep} or more` : '';
      this.#add('out-of-order', place(index), showFound(written[index]), wanted + byMore);
    }
  }

  #orDefault(name: string, wanted: string, fallback: unknown): unknown {
    const value = this.raw(name);
    if (value !== undefined) return value;
    if (fallback === undefined) this.refuse('missing', name, wanted);
    else this.#reading.defaults.push(this.#dotted(name));
    return fallback;
  }

  #refuseUnknown(name: string, elsewhere: readonly string[]): void {
    // Looking for what was meant takes time, and of a hundred thousand nobody reads it.
    if (this.#reading.problems.isFull) {
      this.#add('unknown-field', showName(name), '', '');
      return;
    }
    const near = nearestName(name, this.#known);
    const other = elsewhere.find((dotted) => dotted.slice(dotted.lastIndexOf('.') + 1) === name);
    const wanted =
      near !== undefined
        ? `"${near}", the nearest known field`
        : other !== undefined
          ? `this field in its place, ${other}`
          : `only the fields ${this.#known.join(', ')}`;
    this.#add('unknown-field', showName(name), `the unknown field ${quote(name)}`, wanted);
  }

  #add(code: ProblemCode, name: string, found: string, wanted: string): void {
    const at: ProblemPlace = { field: this.#dotted(name) };
    this.#reading.problems.add(code, at, found, wanted);
  }

  #dotted(name: string): string {
    return this.#path === '' ? name : `${this.#path}.${name}`;
  }
}

/** What adding and taking away may do to a step. */
const EXACT = 1e-6;

/** An object in braces: no list, not null. */
export const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isWithin = (value: number, { atLeast, atMost }: Range): boolean => value >= atLeast && value <= atMost;

/** For instance `from 0.1 mm to 20 mm`; with `notation`, the bounds are lengths in mm and are said in it, within themselves. */
function describeRange({ atLeast, atMost }: Range, notation?: Notation): string {
  const say = (bound: number, how: Exact): string =>
    notation === undefined ? `${bound}` : lengthText(bound, notation, how);
  return `from ${say(atLeast, 'at least')} to ${say(atMost, 'at most')}`;
}
