/**
 * How a job writes its lengths, looked at before anything is read, so that every refusal too is told in the user's own notation.
 * Never throws, whatever it is given: what is no length says nothing.
 */
import { NOTATIONS, type Notation, plainNotation, unitsOf } from '../../core/figures/notation.ts';
import { isObject } from './jobSection.ts';
import { lengthsWritten } from './lengthsWritten.ts';

/**
 * The job's own `notation` where it has one. Else what most of the lengths are written in that say it (texts of the job, cells of its tables; among
 * equals the first), within its `units`: a whole number says nothing, and a bare number of the job file, which has no fractions, counts
 * only where nothing else says. Where `units` is left out, bare numbers are mm, and count so.
 */
export function notationOf(job: unknown, files: Readonly<Record<string, string>>): Notation {
  if (!isObject(job)) return 'mm';
  const named = NOTATIONS.find((each) => each === job.notation);
  if (named !== undefined) return named;
  if (job.units !== undefined && job.units !== 'in') return 'mm';
  const { texts, cells, numbers } = lengthsWritten(job, files);
  const isIn = (notation: Notation | undefined): boolean => notation !== undefined && unitsOf(notation) === 'in';
  const written = [...texts, ...cells].map(notationOfText);
  if (job.units === 'in')
    return (
      mostOf(written.filter(isIn)) ??
      (numbers.some((size) => !Number.isInteger(size)) ? 'decimal inches' : plainNotation('in'))
    );
  const bare = [...cells, ...numbers.map(String)].filter((text) => BARE.test(text.trim())).length;
  const [inches, metric] = [written.filter(isIn), written.filter((notation) => notation === 'mm')];
  const wholeInches = texts.concat(cells).filter((text) => WHOLE_INCHES.test(text.trim())).length;
  if (inches.length + wholeInches <= bare + metric.length) return 'mm';
  return mostOf(inches) ?? plainNotation('in');
}

const BARE = /^[-+]?(\d+\.?\d*|\.\d+)$/;
const WHOLE_INCHES = /^[-+]?\d+\s*(in|inch|inches|"|\u2033|\u201d)$/i;

/** What one length says of its notation; undefined where it could be several, and of one with more decimals than anybody writes. */
function notationOfText(written: string): Notation | undefined {
  const text = written.trim();
  if (/^[-\u2212]?\d+[-\u2010-\u2015]\d+[-\u2010-\u2015]\d+[-+]*$/.test(text)) return 'feet-inches-eighths';
  if (/\d\s*(mm|cm|m)$/i.test(text)) return 'mm';
  if (/\d\/\d|[\u00bc-\u00be\u2150-\u215e\u2044]|\d\s*(ft|foot|feet|['\u2032\u2019])/i.test(text))
    return 'inches and fractions';
  return /^[-+]?\d*\.\d{1,4}\s*(in|inch|inches|"|\u2033|\u201d)?$/i.test(text) ? 'decimal inches' : undefined;
}

/** The most frequent; among equals the first. */
function mostOf(written: readonly (Notation | undefined)[]): Notation | undefined {
  const counts = new Map<Notation, number>();
  for (const each of written) if (each !== undefined) counts.set(each, (counts.get(each) ?? 0) + 1);
  return [...counts].reduce<[Notation, number] | undefined>(
    (a, b) => (a !== undefined && a[1] >= b[1] ? a : b),
    undefined,
  )?.[0];
}
