/** Jobs that are right: one to spoil, and a generator that gives a job as written beside the values that it must parse to. */
import fc from 'fast-check';
import type { Job, PickUpRow } from '../../server/core/job.ts';

export interface WrittenJob {
  readonly job: unknown;
  readonly files: Readonly<Record<string, string>>;
}

/** A fresh copy each time, so that a test may spoil it. */
export const goodJob = () => ({
  format: 'by-the-mark/job@1',
  title: 'Frame 14, starboard',
  units: 'mm',
  frame: { label: '14', side: 'starboard', siding: 60, moulding: 80, mouldedFace: 'forward' },
  shape: { pickup: 'pickup.csv', pattern: 'pattern.csv', errorDeg: 0.5 },
  marks: { at: [0, 120, 250, 400] },
  saw: {
    kerf: 2.4,
    bladeWidth: 25,
    bladeThickness: 1.1,
    tilt: [-5, 45],
    leans: 'right',
    pivotHeight: 0,
    degreesPerTurn: 2,
    readout: 0.5,
    readoutTable: [
      [0, 0.2],
      [10, 10.1],
      [20, 20.3],
    ],
  },
  crew: { reactionS: 0.35, turnsPerS: 0.7, feedMPerMin: 3 },
  stack: { lamination: 3.2, species: 'white oak' },
  voice: { language: 'en', form: 'angle', numbers: 'digits' },
});
export const goodFiles = () => ({
  'pickup.csv':
    '# heel first\ngirth,bevel,weight,note\n0,4,1,heel\n120,6.5,,\n250,9,0.5,"by the bilge, twice"\n400,7,,\n',
  'pattern.csv': 'y,z\n140,90\n300,210\n420,380\n',
});

/** Figures that a person would write: few decimals, so that they come back from text as they were. */
const figure = (least: number, most: number, steps = 100): fc.Arbitrary<number> =>
  fc.integer({ min: Math.ceil(least * steps), max: Math.floor(most * steps) }).map((n) => n / steps);
const word = fc.stringMatching(/^[A-Za-zÄé][A-Za-z0-9 ,."'-]{0,20}[a-z]$/);

const rising = (minLength: number, maxLength: number): fc.Arbitrary<readonly number[]> =>
  fc
    .array(figure(0.1, 400), { minLength, maxLength })
    .map((steps) => steps.map((_, i) => Math.round(steps.slice(0, i + 1).reduce((a, b) => a + b) * 100) / 100));

const rows: fc.Arbitrary<readonly PickUpRow[]> = rising(2, 12).chain((girthsMm) =>
  fc.tuple(
    ...girthsMm.map((girthMm) =>
      fc.record(
        { girthMm: fc.constant(girthMm), bevelDeg: figure(-59, 59), weight: figure(0.1, 5), note: word },
        { requiredKeys: ['girthMm', 'bevelDeg', 'weight'] },
      ),
    ),
  ),
);
const cell = (text: string): string => (/[",#\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
const writeRows = (of: readonly PickUpRow[]): string =>
  ['note,girth,bevel,weight', ...of.map((r) => `${cell(r.note ?? '')},${r.girthMm},${r.bevelDeg},${r.weight}`)].join(
    '\r\n',
  );

/** Every field given, but for the saw's own feed, which has no default; lengths in mm. */
export const anyJob: fc.Arbitrary<{ readonly written: WrittenJob; readonly wanted: Job }> = fc
  .record({
    title: word,
    label: word,
    side: fc.constantFrom('port', 'starboard'),
    mouldedFace: fc.constantFrom('forward', 'aft'),
    sidingMm: figure(1, 300),
    mouldingMm: figure(1, 300),
    rows,
    errorDeg: figure(0.1, 5),
    points: fc.option(
      fc
        .uniqueArray(fc.tuple(figure(-2000, 2000, 10), figure(-500, 3000, 10)), {
          minLength: 2,
          maxLength: 9,
          selector: String,
        })
        .map(heelFirst),
      { nil: undefined },
    ),
    marks: fc.oneof(
      figure(1, 500).map((spacingMm) => ({ kind: 'spacing', spacingMm }) as const),
      rising(2, 9).map((girthsMm) => ({ kind: 'at', girthsMm }) as const),
      figure(0.01, 5).map((toleranceDeg) => ({ kind: 'tolerance', toleranceDeg }) as const),
    ),
    bladeThicknessMm: figure(0.3, 2),
    clearanceMm: figure(0.1, 3),
    bladeWidthMm: figure(5, 150),
    tiltDeg: fc.tuple(figure(-60, 0), figure(1, 60)),
    leans: fc.constantFrom('left', 'right'),
    pivotHeightMm: figure(-100, 100),
    degreesPerTurn: figure(0.1, 20),
    readoutDeg: fc.constantFrom(0.1, 0.25, 0.5, 1),
    readoutTable: fc.constantFrom(
      [],
      [[0, 0.2]],
      [
        [0, 0.2],
        [10, 10.1],
        [20, 20.3],
      ],
    ) as fc.Arbitrary<[number, number][]>,
    sawFeedMPerMin: fc.option(figure(0.1, 30), { nil: undefined }),
    crew: fc.record({ reactionS: figure(0, 2), turnsPerS: figure(0.1, 3), feedMPerMin: figure(0.1, 20) }),
    stack: fc.record({ laminationMm: figure(0.5, 20), species: word }),
    voice: fc.record(
      {
        language: fc.constantFrom('en', 'de'),
        form: fc.constantFrom('angle', 'mark and angle'),
        numbers: fc.constantFrom('natural', 'digits', 'two digits'),
        words: fc.constantFrom({}, { easeFeed: 'gently now' }, { stopFeed: 'whoa', runDone: 'that was all' }),
      },
      { requiredKeys: ['language', 'form', 'numbers'] },
    ),
  })
  .map((is) => {
    const sawFeed = is.sawFeedMPerMin === undefined ? {} : { feedMPerMin: is.sawFeedMPerMin };
    const kerfMm = Math.round((is.bladeThicknessMm + is.clearanceMm) * 100) / 100;
    const { kind, ...placing } = is.marks;
    const wanted: Job = {
      title: is.title,
      units: 'mm',
      notation: 'mm',
      frame: {
        label: is.label,
        side: is.side,
        sidingMm: is.sidingMm,
        mouldingMm: is.mouldingMm,
        mouldedFace: is.mouldedFace,
      },
      shape: {
        kind: 'pick-up',
        file: 'p.csv',
        rows: is.rows,
        errorDeg: is.errorDeg,
        ...(is.points === undefined
          ? {}
          : { pattern: { file: 'e.csv', points: is.points.map(([yMm, zMm]) => ({ yMm, zMm })) } }),
      },
      marks: is.marks,
      saw: {
        kerfMm,
        bladeThicknessMm: is.bladeThicknessMm,
        bladeWidthMm: is.bladeWidthMm,
        tiltDeg: is.tiltDeg,
        leans: is.leans,
        pivotHeightMm: is.pivotHeightMm,
        degreesPerTurn: is.degreesPerTurn,
        readoutDeg: is.readoutDeg,
        readoutTable: is.readoutTable,
        ...sawFeed,
      },
      crew: is.crew,
      stack: is.stack,
      voice: is.voice,
      defaults: [],
    };
    const job = {
      format: 'by-the-mark/job@1',
      title: is.title,
      units: 'mm',
      notation: 'mm',
      frame: {
        label: is.label,
        side: is.side,
        siding: `${is.sidingMm} mm`,
        moulding: is.mouldingMm,
        mouldedFace: is.mouldedFace,
      },
      shape: { pickup: 'p.csv', errorDeg: is.errorDeg, ...(is.points === undefined ? {} : { pattern: 'e.csv' }) },
      marks: { [kind]: Object.values(placing)[0] },
      saw: {
        kerf: kerfMm,
        bladeThickness: is.bladeThicknessMm,
        bladeWidth: `${is.bladeWidthMm}mm`,
        tilt: is.tiltDeg,
        leans: is.leans,
        pivotHeight: is.pivotHeightMm,
        degreesPerTurn: is.degreesPerTurn,
        readout: is.readoutDeg,
        readoutTable: is.readoutTable,
        ...sawFeed,
      },
      crew: is.crew,
      stack: { lamination: is.stack.laminationMm, species: is.stack.species },
      voice: is.voice,
    };
    const files = {
      'p.csv': writeRows(is.rows),
      ...(is.points === undefined
        ? {}
        : { 'e.csv': `\uFEFFz,y\n${is.points.map(([y, z]) => `${z},${y}`).join('\n')}` }),
    };
    return { written: { job, files }, wanted };
  });

/** A pattern whose ends are nearly level has its head farther out; any other has it higher up. */
function heelFirst(points: [number, number][]): [number, number][] {
  const [[y0, z0], [y1, z1]] = [points[0] ?? [0, 0], points.at(-1) ?? [0, 0]];
  const isLevel = Math.abs(z1 - z0) <= 0.05 * Math.abs(y1 - y0);
  return (isLevel ? y1 < y0 : z1 < z0) ? points.toReversed() : points;
}
