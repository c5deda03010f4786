import { describe, expect, test } from 'vitest';
import { everyMarkText } from '../../../server/core/figures/markRanges.ts';
import type { Job } from '../../../server/core/job.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { planned } from '../../kit/planned.ts';

const told = (job: Job): string[] =>
  planned(job)
    .warnings.filter(({ code }) => code === 'tilt-out-of-reach')
    .map(({ message }) => message);
const frame = (tiltDeg: readonly [number, number], ...rows: readonly (readonly [number, number])[]): Job =>
  aJob({ shape: picked(...rows), saw: { tiltDeg } });
const STANDING = [
  [0, 2],
  [900, 11],
  [1800, 2],
] as const;
const BOTH = [
  [0, 14],
  [900, 4],
  [1800, -7],
] as const;

describe('marks that the saw cannot tilt to', () => {
  test('within reach nothing is said; out of reach it is said once, with all marks and what the saw reaches', () => {
    expect(told(frame([-5, 12], ...STANDING))).toStrictEqual([]);
    expect(told(frame([0, 8], ...STANDING))).toStrictEqual([
      expect.stringMatching(
        /^Marks \d+ to \d+ need the saw at up to 11(\.\d)?°; it reaches from 0° to 8°\. What helps: /,
      ),
    ]);
  });

  test('each cure is offered only where it brings every mark within reach, and put into the job it does', () => {
    const [message] = told(frame([0, 8], ...STANDING));
    expect(message).toContain('rip 2 planks, each as a job of its own with 1/2 of every bevel');
    expect(message).not.toContain('other side of this saw');
    expect(message).not.toContain('cross-cut');
    expect(told(frame([0, 8], ...STANDING.map(([girth, deg]) => [girth, deg / 2] as const)))).toStrictEqual([]);

    const [leaning] = told(frame([-45, 8], ...STANDING));
    expect(leaning).toContain('its top leans to the left and its tilt goes from -8° to 45°');
    expect(told(aJob({ shape: picked(...STANDING), saw: { leans: 'left', tiltDeg: [-8, 45] } }))).toStrictEqual([]);
  });

  test('only the lesser hand out of reach: two lengths, the other one laid the other way', () => {
    const [message] = told(frame([-1, 45], ...BOTH));
    expect(message).toMatch(/need the saw at down to -7(\.\d)?°; it reaches from -1° to 45°\./);
    expect(message).toMatch(/cross-cut the stock where the bevel changes hand .* asks for up to 7(\.\d)?°/);
    // The length of the lesser hand by itself, as a job of its own.
    expect(told(frame([-1, 45], [0, 0], [600, -7]))).toStrictEqual([]);
    // A saw that does not come to square cannot begin there.
    expect(told(frame([1, 45], ...BOTH))[0]).not.toContain('cross-cut');
  });

  test('where nothing helps that is said', () => {
    const [message] = told(frame([5, 45], ...STANDING));
    expect(message).toContain('No other way of laying or ripping it brings that within reach');
    expect(message).not.toContain('What helps');
  });

  test('what is asked never reads as if it were within reach', () => {
    expect(told(frame([0, 11], [0, 11.02], [900, 11.02], [1800, 11.02]))[0]).toContain(
      'at up to 11.1°; it reaches from 0° to 11°',
    );
  });
});

test.each([
  [[3], 'mark 3'],
  [[3, 4, 5], 'marks 3 to 5'],
  [[3, 7], 'marks 3 and 7'],
  [[1, 2, 5, 8, 9], 'marks 1 to 2, 5 and 8 to 9'],
])('marks %j are "%s"', (marks, text) => expect(everyMarkText(marks.map((mark) => ({ mark })))).toBe(text));
