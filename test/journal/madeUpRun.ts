import type { Plan } from '../../server/core/plan/plan.ts';
import type { StoredRun } from '../../server/wire/kept/storedRun.ts';

/** An invented run of three marks, whole in every field. */
export function madeUpRun(run: string, madeAtMs = 1_700_000_000_000): StoredRun {
  return {
    run,
    title: 'Frame 3, port – “trial”',
    feed: { kind: 'simulated', mPerMin: 3, seed: 7 },
    plan,
    setup: {
      routine: 'mark by mark',
      mode: 'pair',
      stations: [
        { mark: 1, positionMm: 0, tiltDeg: 4.21, callDeg: 4 },
        { mark: 2, positionMm: 150, tiltDeg: 11.48, callDeg: 11.5 },
        { mark: 3, positionMm: 301.25, tiltDeg: 7.9, callDeg: 8 },
      ],
      callTexts: ['four', 'eleven point five', 'eight'],
      durationsMs: { four: 310, 'eleven point five': 940, eight: 290 },
      profile: { positionsMm: [0, 75, 150, 301.25], tiltsDeg: [4.21, 7.5, 11.48, 7.9] },
      crew: { reactionS: 0.35, turnsPerS: 0.7, feedMPerMin: 3 },
      degreesPerTurn: 2,
    },
    clips: [{ text: 'four', url: '/clips/four.wav', durationMs: 310, deg: 4, mark: 1 }],
    madeAtMs,
  };
}

const plan: Plan = {
  format: 'by-the-mark/plan@1',
  title: 'Frame 3, port – “trial”',
  units: 'mm',
  notation: 'mm',
  frame: { label: '3', side: 'port', sidingMm: 60, mouldingMm: 80, mouldedFace: 'forward' },
  marks: [],
  curve: [],
  pickedUp: [],
  girthMm: 301.25,
  stock: { thicknessMm: 50, widthMm: 60, lengthMm: 420 },
  fairing: { rmsDeg: 0.1, suspects: [] },
  leads: 'heel',
  leadsIsSure: true,
  thickEdge: 'aft',
  hand: 1,
  twist: { maxDegPerM: 48.5, limitDegPerM: 60 },
  pace: { limitMPerMin: 2.4, limitedBy: 'wheel', durationS: 8, intervals: [] },
  stack: { laminationMm: 3.2, species: 'white oak', plies: 8 },
  saw: { tiltDeg: [-5, 45], readoutDeg: 0.5, readoutTable: [], degreesPerTurn: 2, leans: 'right', kerfMm: 2.4 },
  crew: { reactionS: 0.35, turnsPerS: 0.7, feedMPerMin: 3 },
  voice: { language: 'en', form: 'angle', numbers: 'digits' },
  defaults: [],
  warnings: [],
  cautions: [],
};
