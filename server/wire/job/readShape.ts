/** The `shape` of the job: bevels picked up on the boat, or the table of offsets, with the tables that it names. */
import type { FromOffsets, Job, PickUp } from '../../core/job.ts';
import { showName } from '../problem/showFound.ts';
import { readOffsets } from '../table/parseOffsets.ts';
import { readPattern } from '../table/parsePattern.ts';
import { readPickUp } from '../table/parsePickUp.ts';
import { FILE_NAME_CHARS } from './jobFile.ts';
import type { JobReading, JobSection, Range } from './jobSection.ts';

/** Bounds of what can be meant at all. Lengths in mm. */
const PLACE: Range = { atLeast: -100_000, atMost: 100_000, step: 1 };
const PLANKING: Range = { atLeast: 0, atMost: 300 };
const CANT: Range = { atLeast: -80, atMost: 80 };
const FRAMES = { atLeast: 1, atMost: 500 };
const BATTEN: Range = { atLeast: 0, atMost: 50 };

const OF_OFFSETS = [
  ['cantDeg', 'cant'],
  ['planking', 'planking'],
  ['fairing', 'fairing of offsets'],
  ['frames', 'frames of the boat'],
  ['asDrawn', '"asDrawn"'],
] as const;

const WANTED_SHAPE =
  'the bevels picked up on the boat, such as { "pickup": "pickup.csv" }, or the table of offsets, such as { "offsets": "offsets.csv", "at": 4200 }';

export function readShape(top: JobSection, shape: JobSection, files: Files, reading: JobReading): Job['shape'] {
  const nothing: PickUp = { kind: 'pick-up', file: '', rows: [], errorDeg: 0 };
  if (!top.isGiven('shape')) {
    top.refuse('missing', 'shape', WANTED_SHAPE);
    return nothing;
  }
  const isFromOffsets = ['offsets', 'at'].some((name) => shape.isGiven(name));
  const offsets = isFromOffsets ? readFromOffsets(shape, files, reading) : undefined;
  if (offsets !== undefined && !shape.isGiven('pickup')) {
    if (shape.isGiven('pattern'))
      shape.refuse('unknown-field', 'pattern', 'no pattern: the offsets have the moulded edge');
    if (shape.isGiven('batten'))
      shape.refuse('unknown-field', 'batten', 'no batten: girths off the table are along the moulded edge');
    if (shape.isGiven('readings'))
      shape.refuse('unknown-field', 'readings', 'no readings of a gauge: none were picked up');
    if (shape.isGiven('errorDeg')) shape.refuse('unknown-field', 'errorDeg', 'no error of bevels: none were picked up');
    return offsets;
  }
  if (offsets === undefined) refuseOfOffsets(shape);
  const errorDeg = shape.number('errorDeg', 'degrees', { atLeast: 0.001, atMost: 30 }, 0.5);
  const pickUp = findTable('pickup', shape, files, reading);
  // Without a default that is told: degrees off square are what the table's column is.
  const readings = shape.isGiven('readings') ? shape.choice('readings', ['off square', 'about 90']) : 'off square';
  const rows =
    pickUp === undefined ? [] : readPickUp(pickUp.file, pickUp.text, reading.units, reading.problems, readings);
  const against = offsets === undefined ? {} : { against: offsets };
  const measured = {
    kind: 'pick-up',
    file: pickUp?.file ?? '',
    rows,
    errorDeg,
    ...against,
    ...readBatten(shape),
  } as const;
  if (!shape.isGiven('pattern')) return measured;
  const pattern = findTable('pattern', shape, files, reading);
  if (pattern === undefined) return measured;
  const points = readPattern(pattern.file, pattern.text, reading.units, reading.problems);
  return { ...measured, pattern: { file: pattern.file, points } };
}

/** Bevels picked up on the boat have all of this in them: a figure that changed nothing would only seem to count. */
function refuseOfOffsets(shape: JobSection): void {
  for (const [name, noun] of OF_OFFSETS)
    if (shape.isGiven(name))
      shape.refuse(
        'unknown-field',
        name,
        `no ${noun} beside a pick-up: it counts only where "offsets" stand beside it`,
      );
}

/** How much a batten's half thickness comes to depends on how the frame turns. */
function readBatten(shape: JobSection): Pick<PickUp, 'battenMm'> {
  if (!shape.isGiven('batten')) return {};
  if (!shape.isGiven('pattern'))
    shape.refuse(
      'missing',
      'pattern',
      'a pattern of the moulded edge beside "batten": without its turns the half thickness cannot be taken out',
    );
  return { battenMm: shape.length('batten', 'the thickness of the batten that carries the girths, a length', BATTEN) };
}

function readFromOffsets(shape: JobSection, files: Files, reading: JobReading): FromOffsets {
  const found = findTable('offsets', shape, files, reading);
  const table = found === undefined ? undefined : readOffsets(found.file, found.text, reading.units, reading.problems);
  const place = 'a place along the boat in the measure of the offsets, a length';
  return {
    kind: 'offsets',
    file: found?.file ?? '',
    table: table ?? { file: found?.file ?? '', stations: [] },
    atMm: shape.length('at', place, PLACE),
    cantDeg: shape.isGiven('cantDeg')
      ? shape.number('cantDeg', 'degrees off athwartships, positive where the outer end stands farther aft,', CANT)
      : 0,
    plankingMm: shape.isGiven('planking')
      ? shape.length('planking', 'the thickness of the planking that the offsets include, a length', PLANKING)
      : 0,
    ...(shape.isGiven('fairing')
      ? { fairingMm: shape.length('fairing', 'how far fairing may move a point, a length', PLANKING) }
      : {}),
    isAsDrawn: shape.isGiven('asDrawn') && shape.yesOrNo('asDrawn'),
    framesMm: shape.isGiven('frames') ? shape.lengths('frames', 'places along the boat', PLACE, FRAMES) : [],
  };
}

type Files = Readonly<Record<string, string>>;

function findTable(
  field: 'pickup' | 'pattern' | 'offsets',
  shape: JobSection,
  files: Files,
  { problems }: JobReading,
): { readonly file: string; readonly text: string } | undefined {
  const file = shape.text(field, `the name of a file such as "${field}.csv"`, undefined, FILE_NAME_CHARS);
  if (file === '') return undefined;
  const name = [file, file.replace(/^\.\//, '')].find((key) => Object.hasOwn(files, key));
  const text: unknown = name === undefined ? undefined : files[name];
  if (typeof text === 'string') return { file, text };
  const names = Object.keys(files);
  const given = names.slice(0, 5).map(showName).join(', ');
  const found =
    names.length === 0 ? 'no such file' : `no such file among those given: ${given}${names.length > 5 ? ', ...' : ''}`;
  problems.add(
    'missing-file',
    { file: showName(file), field: `shape.${field}` },
    found,
    'a table by that name beside the job',
  );
  return undefined;
}
