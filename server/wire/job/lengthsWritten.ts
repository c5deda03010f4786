/** The lengths of a job as they are written, before anything is read: in its fields, and in the columns of its tables. */
import { isObject } from './jobSection.ts';

interface LengthsWritten {
  readonly texts: readonly string[];
  readonly cells: readonly string[];
  /** Without a unit, in the job file. */
  readonly numbers: readonly number[];
}

/** Fields that hold lengths, by section. */
const FIELDS: Readonly<Record<string, readonly string[]>> = {
  frame: ['siding', 'moulding'],
  shape: ['at', 'batten', 'planking', 'fairing', 'frames'],
  marks: ['spacing', 'at'],
  saw: ['kerf', 'bladeWidth', 'bladeThickness', 'pivotHeight'],
  rip: ['lineHeight', 'thinnestEdge', 'cleaningUp', 'endWaste', 'heelBeyond', 'headBeyond'],
  stack: ['lamination', 'glueLine'],
};
/** Columns of the tables that hold lengths; a wide table of offsets holds nothing else. */
const COLUMNS = ['girth', 'y', 'z', 'x'];
/** As many cells as tell enough, and no more work than that. */
const MOST_CELLS = 5000;

export function lengthsWritten(
  job: Readonly<Record<string, unknown>>,
  files: Readonly<Record<string, string>>,
): LengthsWritten {
  const values = Object.entries(FIELDS).flatMap(([section, names]) => {
    const own = job[section];
    return isObject(own) ? names.flatMap((name) => own[name] ?? []) : [];
  });
  const shape = isObject(job.shape) ? job.shape : {};
  const tables = ['pickup', 'pattern', 'offsets'].flatMap((field) => {
    const name = shape[field];
    if (typeof name !== 'string') return [];
    const text: unknown = [name, name.replace(/^\.\//, '')]
      .map((key) => Object.hasOwn(files, key) && files[key])
      .find(Boolean);
    return typeof text === 'string' ? [text] : [];
  });
  return {
    texts: values.filter((value) => typeof value === 'string').map((text) => text.slice(0, 60)),
    numbers: values.filter((value) => typeof value === 'number'),
    cells: tables.flatMap(cellsOf).slice(0, MOST_CELLS),
  };
}

function cellsOf(table: string): readonly string[] {
  const rows = table
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/, MOST_CELLS)
    .filter((line) => line.trim() !== '' && !line.startsWith('#'))
    .map((line) => line.split(',', 200).map((cell) => cell.trim().replace(/^"|"$/g, '').replaceAll('""', '"')));
  const heading = rows[0]?.map((cell) => cell.toLowerCase()) ?? [];
  const isNamed = COLUMNS.some((name) => heading.includes(name));
  const isLength = (column: number): boolean => (isNamed ? COLUMNS.includes(heading[column] ?? '') : column > 0);
  return rows.slice(1).flatMap((cells) => cells.filter((cell, column) => cell !== '' && isLength(column)));
}
