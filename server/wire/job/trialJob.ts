/** A trial as a job file and its table, so that it is planned, printed and run like any other. */
import { fixedFigure } from '../../core/figures/decimals.ts';
import { rounded } from '../../core/figures/rounding.ts';
import type { Job } from '../../core/job.ts';
import type { TrialCorrection } from '../../core/sawn/correction.ts';
import type { Trial } from '../../core/sawn/trial.ts';
import { trialTitle } from '../../core/sawn/trialText.ts';
import { MM_PER_INCH } from '../../core/units.ts';
import { isObject, TEXT_CHARS } from './jobSection.ts';
import { JOB_FORMAT } from './parseJob.ts';

export const TRIAL_TABLE = 'trial-bevels.csv';

interface JobWithFiles {
  readonly job: Readonly<Record<string, unknown>>;
  readonly files: Readonly<Record<string, string>>;
}

/** A trial, with the job that saws it. */
export interface TrialMade extends JobWithFiles {
  readonly trial: Trial;
}

/** What a measured trial told. */
export interface TrialTold {
  readonly trial: Trial;
  readonly correction: TrialCorrection;
  readonly feedMmPerS: number;
}

/** `given`: the job file as it was; saw, crew, stack and voice stay as it has them. `parsed`: the same, read. */
export function trialJob(given: unknown, parsed: Job, trial: Trial): JobWithFiles {
  const own = isObject(given) ? given : {};
  const { units, notation, frame } = parsed;
  const length = (mm: number): number =>
    rounded(units === 'in' ? mm / MM_PER_INCH : mm, units === 'in' ? 5 : 3, 'nearest');
  const kept = ['saw', 'crew', 'stack', 'voice'].filter((name) => Object.hasOwn(own, name));
  const rip = ripOf(own.rip);
  return {
    job: {
      format: JOB_FORMAT,
      title: trialTitle(parsed.title, trial).slice(0, TEXT_CHARS),
      units,
      notation,
      frame: ownFrame(own.frame, `${frame.label}, trial`),
      shape: { pickup: TRIAL_TABLE, errorDeg: 0.5 },
      marks: { at: trial.marks.map(({ alongMm }) => length(alongMm)) },
      ...(rip === undefined ? {} : { rip }),
      ...Object.fromEntries(kept.map((name) => [name, own[name]])),
    },
    files: {
      [TRIAL_TABLE]: [
        '# The bevels that are sawn, along the straight stock',
        'girth,bevel',
        ...trial.bevels.map(({ alongMm, bevelDeg }) => `${length(alongMm)},${fixedFigure(bevelDeg, 4)}`),
        '',
      ].join('\n'),
    },
  };
}

/** Side, face, siding and moulding as they were: they say which way round it is fed. */
const ownFrame = (frame: unknown, label: string): unknown => ({ ...(isObject(frame) ? frame : {}), label });

/** Nothing is bent and nothing goes on beyond the marks. */
function ripOf(rip: unknown): Readonly<Record<string, unknown>> | undefined {
  if (!isObject(rip)) return undefined;
  const { favours: _favours, heelBeyond: _heel, headBeyond: _head, ...kept } = rip;
  return kept;
}
