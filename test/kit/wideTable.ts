/** A drawn hull as the traditional wide table of offsets: what its sections are on waterlines, buttocks, sheer and rabbet. */

export type Section = readonly (readonly [yMm: number, zMm: number])[];

export interface WideLines {
  readonly stations: readonly { readonly name: string; readonly xMm: number; readonly section: Section }[];
  readonly waterlinesMm: readonly number[];
  readonly buttocksMm: readonly number[];
  /** How a length is written. */
  readonly write: (mm: number) => string;
}

export function wideTable({ stations, waterlinesMm, buttocksMm, write }: WideLines): string {
  const row = (title: string, cells: readonly (number | undefined)[]): string =>
    [title, ...cells.map((mm) => (mm === undefined ? '' : write(mm)))].join(',');
  const sections = stations.map(({ section }) => section);
  return [
    ['line', ...stations.map(({ name }) => name)].join(','),
    row(
      'x',
      stations.map(({ xMm }) => xMm),
    ),
    'Half-breadths',
    row(
      'Sheer',
      sections.map((section) => section.at(-1)?.[0]),
    ),
    ...waterlinesMm.toReversed().map((zMm) =>
      row(
        `WL ${write(zMm)}`,
        sections.map((section) => crossing(section, 1, zMm)),
      ),
    ),
    row(
      'Rabbet',
      sections.map((section) => section[0]?.[0]),
    ),
    'Heights',
    row(
      'Sheer',
      sections.map((section) => section.at(-1)?.[1]),
    ),
    ...buttocksMm.toReversed().map((yMm) =>
      row(
        `Buttock ${write(yMm)}`,
        sections.map((section) => crossing(section, 0, yMm)),
      ),
    ),
    row(
      'Rabbet',
      sections.map((section) => section[0]?.[1]),
    ),
    '',
  ].join('\n');
}

/** The other coordinate where the section first crosses a level of one (0: half-breadth, 1: height). */
function crossing(section: Section, side: 0 | 1, level: number): number | undefined {
  for (let i = 1; i < section.length; i++) {
    const [from, to] = [section[i - 1], section[i]];
    if (from === undefined || to === undefined) continue;
    const [a, b] = [from[side] - level, to[side] - level];
    if (a === 0 || a * b >= 0) continue;
    const t = a / (a - b);
    const other = side === 0 ? 1 : 0;
    return from[other] + t * (to[other] - from[other]);
  }
  return undefined;
}

/** Feet-inches-eighths, to the nearest thirty-second of an inch with "+", "++" and "+-", or to the eighth. */
export function traditional(mm: number, toThirtySeconds = true): string {
  const steps = toThirtySeconds ? Math.round((mm / 25.4) * 32) : 4 * Math.round((mm / 25.4) * 8);
  const eighths = Math.floor(steps / 4);
  const signs = ['', '+-', '+', '++'][steps % 4] ?? '';
  return `${Math.floor(eighths / 96)}-${Math.floor((eighths % 96) / 8)}-${eighths % 8}${signs}`;
}
