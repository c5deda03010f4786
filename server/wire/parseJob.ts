/** The job file and its tables, parsed once, at the door: what comes out is complete, in mm and degrees, and can be trusted. */
import type { Result } from '../core/errors.ts';
import { refused } from '../core/errors.ts';
import type { FromOffsets, Job, MarkPlacing, PickUp, Saw } from '../core/job.ts';
import { LANGUAGES } from '../core/words/languages.ts';
import { PHRASE_NAMES } from '../core/words/phraseNames.ts';
import { FILE_NAME_CHARS } from './jobFile.ts';
import { isObject, JobSection, newReading, type Range, type Reading, TEXT_CHARS } from './jobSection.ts';
import { readOffsets } from './parseOffsets.ts';
import { readPattern } from './parsePattern.ts';
import { readPickUp } from './parsePickUp.ts';
import { readWords } from './readWords.ts';
import { showFound, showName } from './showFound.ts';

export const JOB_FORMAT = 'by-the-mark/job@1';

/** Every field of the job file, by section. */
const FIELDS = {
  '': ['format', 'title', 'units', 'frame', 'shape', 'marks', 'saw', 'rip', 'crew', 'stack', 'voice'],
  frame: ['label', 'side', 'siding', 'moulding', 'mouldedFace'],
  shape: ['pickup', 'pattern', 'batten', 'errorDeg', 'offsets', 'at', 'planking', 'cantDeg', 'fairing', 'frames'],
  marks: ['spacing', 'at', 'tolerance'],
  // Before `saw`: a feed that stands nowhere in particular is the crew's.
  crew: ['reactionS', 'turnsPerS', 'feedMPerMin'],
  saw: [
    ...['kerf', 'bladeWidth', 'bladeThickness', 'tilt', 'leans', 'pivotHeight', 'degreesPerTurn', 'readout'],
    ...['readoutTable', 'feedMPerMin'],
  ],
  rip: ['feeds', 'lineHeight', 'thinnestEdge', 'cleaningUp', 'endWaste', 'favours', 'heelBeyond', 'headBeyond'],
  stack: ['lamination', 'species'],
  voice: ['language', 'form', 'numbers', 'words'],
} as const;
type SectionName = Exclude<keyof typeof FIELDS, ''>;

const ALL_FIELDS = Object.entries(FIELDS).flatMap(([section, names]) =>
  names.map((name) => (section === '' ? name : `${section}.${name}`)),
);

/** A plan has 2 to 2000 marks. */
const MARKS = { atLeast: 2, atMost: 2000 };

/** Bounds of what can be meant at all; what is merely unwise is planned and warned of. Lengths in mm. */
const ALONG: Range = { atLeast: 0, atMost: 100_000 };
const ACROSS: Range = { above: 0, atMost: 2000 };
const TILT: Range = { atLeast: -90, atMost: 90 };
const PLACE: Range = { atLeast: -100_000, atMost: 100_000 };
const PLANKING: Range = { atLeast: 0, atMost: 300 };
const CANT: Range = { atLeast: -80, atMost: 80 };
const FRAMES = { atLeast: 1, atMost: 500 };
const LINE_HEIGHT: Range = { atLeast: 0, atMost: 2000 };
const BATTEN: Range = { atLeast: 0, atMost: 50 };
const EDGE: Range = { atLeast: 0, atMost: 100 };
const BEYOND: Range = { atLeast: 0, atMost: 5000 };
/** Metres a minute. */
const FEED: Range = { above: 0, atMost: 100 };

/**
 * The job file (already parsed as JSON) and the tables that it names, by file name. Everything that is wrong is told at once,
 * each with its file and row or its field. Never throws, whatever it is given.
 */
export function parseJob(job: unknown, files: Readonly<Record<string, string>>): Result<Job> {
  if (!isObject(job))
    return refused([
      { code: 'wrong-type', at: { field: 'job' }, found: showFound(job), wanted: 'a job: an object in braces' },
    ]);
  const reading = newReading();
  const top = new JobSection(job, '', FIELDS[''], reading, ALL_FIELDS);
  const section = (name: SectionName): JobSection => top.section(name, FIELDS[name], ALL_FIELDS);
  readFormat(top);
  const units = top.choice('units', ['mm', 'in'], 'mm');
  reading.units = units;
  const frameFields = section('frame');
  const frame = readFrame(frameFields);
  return reading.problems.result({
    title: top.text('title', 'a title', nameFrame(frameFields, frame)),
    units,
    frame,
    marks: readMarks(section('marks')),
    saw: readSaw(section('saw')),
    ...(top.isGiven('rip') ? { rip: readRip(section('rip')) } : {}),
    crew: readCrew(section('crew')),
    stack: readStack(section('stack')),
    voice: readVoice(section('voice'), reading),
    shape: readShape(top, section('shape'), files, reading),
    defaults: reading.defaults,
  });
}

function readFormat(top: JobSection): void {
  const format = top.raw('format');
  if (format === JOB_FORMAT) return;
  const code = format === undefined ? 'missing' : typeof format === 'string' ? 'not-supported' : 'wrong-type';
  top.refuse(code, 'format', `"${JOB_FORMAT}"`);
}

function readFrame(frame: JobSection): Job['frame'] {
  return {
    label: frame.label('label', 'the name of the frame', 'unnamed'),
    side: frame.choice('side', ['port', 'starboard'], 'starboard'),
    sidingMm: frame.length('siding', 'the siding, a length', ACROSS),
    mouldingMm: frame.length('moulding', 'the moulding, a length', ACROSS, 80),
    mouldedFace: frame.choice('mouldedFace', ['forward', 'aft'], 'forward'),
  };
}

/** A title says only what the job says: no side that was filled in. */
function nameFrame(fields: JobSection, { label, side }: Job['frame']): string {
  const parts = [fields.isGiven('label') ? `Frame ${label}` : 'Frame', ...(fields.isGiven('side') ? [side] : [])];
  return parts.join(', ').slice(0, TEXT_CHARS);
}

function readMarks(marks: JobSection): MarkPlacing {
  const ways = (['spacing', 'at', 'tolerance'] as const).filter((name) => marks.isGiven(name));
  if (ways.length > 1) marks.refuseWhole('too-many', `${ways.join(' and ')}`, 'one of spacing, at and tolerance');
  switch (ways[0]) {
    case 'at':
      return { kind: 'at', girthsMm: marks.lengths('at', 'girths', ALONG, MARKS) };
    case 'tolerance':
      return { kind: 'tolerance', toleranceDeg: marks.number('tolerance', 'degrees', { above: 0, atMost: 10 }) };
    default:
      return { kind: 'spacing', spacingMm: marks.length('spacing', 'a length', { atLeast: 1, atMost: 100_000 }, 150) };
  }
}

function readSaw(saw: JobSection): Saw {
  return {
    ...readBlade(saw),
    bladeWidthMm: saw.length('bladeWidth', "the blade's width, a length", { above: 0, atMost: 500 }, 25),
    tiltDeg: saw.interval('tilt', 'degrees of tilt', TILT, [-5, 45]),
    leans: saw.choice('leans', ['left', 'right'], 'right'),
    pivotHeightMm: saw.length('pivotHeight', 'a height above the table', { atLeast: -2000, atMost: 2000 }, 0),
    degreesPerTurn: saw.number('degreesPerTurn', 'degrees a turn of the handwheel,', { above: 0, atMost: 90 }, 2),
    readoutDeg: saw.number('readout', "the readout's step in degrees,", { atLeast: 0.01, atMost: 5 }, 0.5),
    readoutTable: saw.pairs('readoutTable', '[readout shown, true tilt] in degrees', TILT, 200),
    // Without a default: nobody but the shop knows.
    ...(saw.isGiven('feedMPerMin') ? { feedMPerMin: saw.number('feedMPerMin', 'metres a minute,', FEED) } : {}),
  };
}

/** The teeth are set wider than the blade, or it would bind: a default never contradicts the field that was given. */
function readBlade(saw: JobSection): Pick<Saw, 'kerfMm' | 'bladeThicknessMm'> {
  const readKerf = (fallbackMm: number): number =>
    saw.length('kerf', 'the kerf, a length', { above: 0, atMost: 20 }, fallbackMm);
  const readThickness = (fallbackMm: number): number =>
    saw.length('bladeThickness', "the blade's thickness, a length", { above: 0, atMost: 10 }, fallbackMm);
  if (!saw.isGiven('kerf')) {
    const bladeThicknessMm = readThickness(1.1);
    return { kerfMm: readKerf(Math.max(2.4, 2 * bladeThicknessMm)), bladeThicknessMm };
  }
  const kerfMm = readKerf(2.4);
  const bladeThicknessMm = readThickness(Math.min(1.1, kerfMm / 2));
  if (bladeThicknessMm >= kerfMm)
    saw.refuse('out-of-range', 'bladeThickness', 'a blade thinner than the kerf that it saws, or it binds');
  return { kerfMm, bladeThicknessMm };
}

/** Fields that are left out stay so: what is then taken stands in `plan.rip`. */
function readRip(rip: JobSection): NonNullable<Job['rip']> {
  const length = (name: string, noun: string, range: Range) => rip.length(name, `${noun}, a length`, range);
  const given = <T>(name: string, field: string, read: () => T) => (rip.isGiven(name) ? { [field]: read() } : {});
  if (rip.isGiven('lineHeight') && rip.raw('feeds') !== 'along a line')
    rip.refuse('out-of-order', 'lineHeight', '"feeds": "along a line" beside it: along a fence no line is followed');
  return {
    ...given('feeds', 'feeds', () => rip.choice('feeds', ['along a fence', 'along a line'])),
    ...given('lineHeight', 'lineHeightMm', () =>
      length('lineHeight', 'the height of the line above the table', LINE_HEIGHT),
    ),
    ...given('thinnestEdge', 'thinnestEdgeMm', () => length('thinnestEdge', 'the thinnest edge of a wedge', EDGE)),
    ...given('cleaningUp', 'cleaningUpMm', () => length('cleaningUp', 'what is left on each face', EDGE)),
    ...given('endWaste', 'endWasteMm', () => length('endWaste', 'what is left at each end', BEYOND)),
    ...given('favours', 'favours', () => rip.choice('favours', ['outer', 'both'])),
    ...given('heelBeyond', 'heelBeyondMm', () => length('heelBeyond', 'the frame below its first mark', BEYOND)),
    ...given('headBeyond', 'headBeyondMm', () => length('headBeyond', 'the frame above its last mark', BEYOND)),
  };
}

function readCrew(crew: JobSection): Job['crew'] {
  return {
    reactionS: crew.number('reactionS', 'seconds', { atLeast: 0, atMost: 10 }, 0.35),
    turnsPerS: crew.number('turnsPerS', 'turns of the handwheel a second,', { above: 0, atMost: 10 }, 0.7),
    feedMPerMin: crew.number('feedMPerMin', 'metres a minute,', FEED, 3),
  };
}

function readStack(stack: JobSection): Job['stack'] {
  return {
    laminationMm: stack.length('lamination', 'the thickness of a lamination, a length', { above: 0, atMost: 200 }, 3.2),
    species: stack.text('species', 'the wood', 'white oak'),
  };
}

function readVoice(voice: JobSection, reading: Reading): Job['voice'] {
  const language = voice.choice('language', LANGUAGES, LANGUAGES[0]);
  return {
    language,
    form: voice.choice('form', ['angle', 'mark and angle'], 'angle'),
    numbers: voice.choice('numbers', ['natural', 'digits', 'two digits'], 'digits'),
    // Without a default: the language has words for everything.
    ...(voice.isGiven('words') ? { words: readWords(voice.section('words', PHRASE_NAMES), language, reading) } : {}),
  };
}

const WANTED_SHAPE =
  'the bevels picked up on the boat, such as { "pickup": "pickup.csv" }, or the table of offsets, such as { "offsets": "offsets.csv", "at": 4200 }';

function readShape(top: JobSection, shape: JobSection, files: Files, reading: Reading): Job['shape'] {
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
    return offsets;
  }
  const errorDeg = shape.number('errorDeg', 'degrees', { above: 0, atMost: 30 }, 0.5);
  const pickUp = findTable('pickup', shape, files, reading);
  const rows = pickUp === undefined ? [] : readPickUp(pickUp.file, pickUp.text, reading.units, reading.problems);
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

function readFromOffsets(shape: JobSection, files: Files, reading: Reading): FromOffsets {
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
    framesMm: shape.isGiven('frames') ? shape.lengths('frames', 'places along the boat', PLACE, FRAMES) : [],
  };
}

type Files = Readonly<Record<string, string>>;

function findTable(
  field: 'pickup' | 'pattern' | 'offsets',
  shape: JobSection,
  files: Files,
  { problems }: Reading,
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
