/** The job file and its tables, parsed once, at the door: what comes out is complete, in mm and degrees, and can be trusted. */
import type { Result } from '../../core/errors.ts';
import { refused } from '../../core/errors.ts';
import { NOTATIONS } from '../../core/figures/notation.ts';
import { type Job, type MarkPlacing, MOST_MARKS, type Saw } from '../../core/job.ts';
import { LANGUAGES } from '../../core/words/languages.ts';
import { PHRASE_NAMES } from '../../core/words/phraseNames.ts';
import { showFound } from '../problem/showFound.ts';
import { isObject, type JobReading, JobSection, newReading, type Range, TEXT_CHARS } from './jobSection.ts';
import { notationOf } from './notationOf.ts';
import { readShape } from './readShape.ts';
import { readWords } from './readWords.ts';

export const JOB_FORMAT = 'by-the-mark/job@1';

/** Every field of the job file, by section. */
const FIELDS = {
  '': ['format', 'title', 'units', 'notation', 'frame', 'shape', 'marks', 'saw', 'rip', 'crew', 'stack', 'voice'],
  frame: ['label', 'side', 'siding', 'moulding', 'mouldedFace'],
  shape: [
    'pickup',
    'readings',
    'pattern',
    'batten',
    'errorDeg',
    'offsets',
    'at',
    'planking',
    'cantDeg',
    'fairing',
    'asDrawn',
    'frames',
  ],
  marks: ['spacing', 'at', 'tolerance'],
  // Before `saw`: a feed that stands nowhere in particular is the crew's.
  crew: ['reactionS', 'turnsPerS', 'feedMPerMin'],
  saw: [
    ...['kerf', 'bladeWidth', 'bladeThickness', 'tilt', 'leans', 'pivotHeight', 'degreesPerTurn', 'readout'],
    ...['readoutTable', 'turnsTable', 'backlashTurns', 'feedMPerMin'],
  ],
  rip: ['feeds', 'lineHeight', 'thinnestEdge', 'cleaningUp', 'endWaste', 'favours', 'heelBeyond', 'headBeyond'],
  stack: ['lamination', 'species'],
  voice: ['language', 'form', 'numbers', 'words'],
} as const;
type SectionName = Exclude<keyof typeof FIELDS, ''>;

const ALL_FIELDS = Object.entries(FIELDS).flatMap(([section, names]) =>
  names.map((name) => (section === '' ? name : `${section}.${name}`)),
);

/** As they are written short; a full stop and capitals change nothing. */
const SIDES = { port: ['p'], starboard: ['stbd', 'stb', 's'] };
const FACES = { forward: ['fwd', "for'd", 'f'], aft: ['a'] };

const MARKS = { atLeast: 2, atMost: MOST_MARKS };
const NEAREST_MARKS_MM = 0.1;

/** Bounds of what can be meant at all; what is merely unwise is planned and warned of. Lengths in mm. */
const ALONG: Range = { atLeast: 0, atMost: 100_000 };
/** The thinnest that is still a piece of wood. */
const ACROSS: Range = { atLeast: 1, atMost: 2000 };
/** Turns of the wheel, and the tilt beside them. */
const TURNS: Range = { atLeast: -1000, atMost: 1000, step: 0.001 };
const TILT: Range = { atLeast: -90, atMost: 90, step: 0.001 };
const LINE_HEIGHT: Range = { atLeast: 0, atMost: 2000 };
const EDGE: Range = { atLeast: 0, atMost: 100 };
const BEYOND: Range = { atLeast: 0, atMost: 5000 };
/** Metres a minute. */
const FEED: Range = { atLeast: 0.01, atMost: 100 };

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
  reading.notation = notationOf(job, files);
  if (top.isGiven('notation')) top.choice('notation', NOTATIONS);
  const frameFields = section('frame');
  const frame = readFrame(frameFields);
  return reading.problems.result({
    title: top.text('title', 'a title', nameFrame(frameFields, frame)),
    units,
    notation: reading.notation,
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
    side: frame.spelled('side', SIDES, 'starboard'),
    sidingMm: frame.length('siding', 'the siding, a length', ACROSS),
    mouldingMm: frame.length('moulding', 'the moulding, a length', ACROSS, 80),
    mouldedFace: frame.spelled('mouldedFace', FACES, 'forward'),
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
      return { kind: 'at', girthsMm: marks.lengths('at', 'girths', { ...ALONG, step: NEAREST_MARKS_MM }, MARKS) };
    case 'tolerance':
      return { kind: 'tolerance', toleranceDeg: marks.number('tolerance', 'degrees', { atLeast: 0.001, atMost: 10 }) };
    default:
      return { kind: 'spacing', spacingMm: marks.length('spacing', 'a length', { atLeast: 1, atMost: 100_000 }, 150) };
  }
}

function readSaw(saw: JobSection): Saw {
  return {
    ...readBlade(saw),
    bladeWidthMm: saw.length('bladeWidth', "the blade's width, a length", { atLeast: 1, atMost: 500 }, 25),
    tiltDeg: saw.interval('tilt', 'degrees of tilt', TILT, [-5, 45]),
    leans: saw.choice('leans', ['left', 'right'], 'right'),
    pivotHeightMm: saw.length('pivotHeight', 'a height above the table', { atLeast: -2000, atMost: 2000 }, 0),
    degreesPerTurn: saw.number('degreesPerTurn', 'degrees a turn of the handwheel,', { atLeast: 0.01, atMost: 90 }, 2),
    readoutDeg: saw.number('readout', "the readout's step in degrees,", { atLeast: 0.01, atMost: 5 }, 0.5),
    readoutTable: saw.pairs('readoutTable', '[readout shown, true tilt] in degrees', TILT, 200),
    // Without a default: nobody but the shop knows.
    ...(saw.isGiven('turnsTable') ? { turnsTable: readTurns(saw) } : {}),
    ...(saw.isGiven('backlashTurns')
      ? { backlashTurns: saw.number('backlashTurns', 'turns of the handwheel,', { atLeast: 0, atMost: 5 }) }
      : {}),
    ...(saw.isGiven('feedMPerMin') ? { feedMPerMin: saw.number('feedMPerMin', 'metres a minute,', FEED) } : {}),
  };
}

/** One row would be no more than `degreesPerTurn` says already. */
function readTurns(saw: JobSection): NonNullable<Saw['turnsTable']> {
  const wanted = '[turns of the handwheel, true tilt in degrees]';
  const table = saw.pairs('turnsTable', wanted, TURNS, 200);
  if (Array.isArray(saw.raw('turnsTable')) && table.length < 2)
    saw.refuse('too-few', 'turnsTable', `at least two pairs of ${wanted}`);
  return table;
}

/** The teeth are set wider than the blade, or it would bind: a default never contradicts the field that was given. */
function readBlade(saw: JobSection): Pick<Saw, 'kerfMm' | 'bladeThicknessMm'> {
  const readKerf = (fallbackMm: number): number =>
    saw.length('kerf', 'the kerf, a length', { atLeast: 0.1, atMost: 20 }, fallbackMm);
  const readThickness = (fallbackMm: number): number =>
    saw.length('bladeThickness', "the blade's thickness, a length", { atLeast: 0.05, atMost: 10 }, fallbackMm);
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
    turnsPerS: crew.number('turnsPerS', 'turns of the handwheel a second,', { atLeast: 0.01, atMost: 10 }, 0.7),
    feedMPerMin: crew.number('feedMPerMin', 'metres a minute,', FEED, 3),
  };
}

function readStack(stack: JobSection): Job['stack'] {
  return {
    laminationMm: stack.length(
      'lamination',
      'the thickness of a lamination, a length',
      { atLeast: 0.1, atMost: 200 },
      3.2,
    ),
    species: stack.text('species', 'the wood', 'white oak'),
  };
}

function readVoice(voice: JobSection, reading: JobReading): Job['voice'] {
  const language = voice.choice('language', LANGUAGES, LANGUAGES[0]);
  return {
    language,
    form: voice.choice('form', ['angle', 'mark and angle'], 'angle'),
    numbers: voice.choice('numbers', ['natural', 'digits', 'two digits'], 'two digits'),
    // Without a default: the language has words for everything.
    ...(voice.isGiven('words') ? { words: readWords(voice.section('words', PHRASE_NAMES), language, reading) } : {}),
  };
}
