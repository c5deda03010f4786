import { describe, expect, test } from 'vitest';
import { lengthIn } from '../../../server/core/figures/lengths.ts';
import type { RipPlan } from '../../../server/core/plan/ripPlan.ts';
import {
  allowanceSentence,
  battenSentence,
  bladeSentence,
  endsSentence,
  feedSentence,
  leftSentence,
} from '../../../server/core/text/ripSentences.ts';
import { aJob } from '../../kit/aJob.ts';
import { planned } from '../../kit/planned.ts';
import { ripOf } from '../../kit/sawnFrame.ts';

const mm = lengthIn('mm');
const rip = (parts: Parameters<typeof aJob>[0] = {}): RipPlan => ripOf(planned(aJob(parts)));

describe('how the stock is fed', () => {
  test('along a fence: nobody steers, and where the cut keeps its distance', () => {
    const onTable = rip();
    expect(feedSentence(onTable, 48, mm)).toContain(
      `Feed straight along the fence, with no steering: on the table, where the tilt axis lies, the middle of the kerf keeps ${mm(onTable.lineMm)} from the face at the fence.`,
    );
    expect(feedSentence(rip({ saw: { pivotHeightMm: 20 } }), 48, mm)).toContain(
      '20 mm above the table, at the height of the tilt axis,',
    );
    expect(feedSentence(rip({ saw: { pivotHeightMm: -20 } }), 48, mm)).toContain('20 mm below the table');
  });
  test('along a line: how far it wanders and how far the sawyer moves the stock', () => {
    const middle = rip({ rip: { feeds: 'along a line' } });
    const said = feedSentence(middle, 48, mm);
    expect(said).toContain('the cut runs straight through the middle of the siding');
    expect(said).toContain(
      `wanders by ${mm(middle.line.upperWanderMm)} on the upper side of the stock and by ${mm(middle.line.lowerWanderMm)} on the lower`,
    );
    expect(said).toContain(`the sawyer moves the stock ${mm(middle.line.steerMm)} sideways under the blade`);
    expect(feedSentence(rip({ rip: { feeds: 'along a line', lineHeightMm: 10 } }), 48, mm)).toContain(
      '10 mm above the table',
    );
    expect(feedSentence(rip({ rip: { feeds: 'along a line' }, saw: { pivotHeightMm: 24 } }), 48, mm)).toContain(
      'The tilt axis is at that height, so the stock is fed straight all the same.',
    );
  });
});

test('what the stock needs beyond: cleaning up, end waste, thinnest edge', () => {
  const made = rip({ rip: { cleaningUpMm: 1.5, endWasteMm: 150, thinnestEdgeMm: 4 } });
  expect(allowanceSentence(made, mm)).toBe(
    `Get it out ${mm(made.roughThicknessMm)} thick and dress both faces: they become the flats. 1.5 mm a face for cleaning up, ` +
      '150 mm of waste at each end, no edge under 4 mm.',
  );
});

describe('what is left', () => {
  const bent = { deg: 0.4, mm: 0.33, girthMm: 500 };
  const made = rip();
  test('nothing, where one cut suits both', () => {
    expect(leftSentence(made, mm, true)).toBe('One cut suits both wedges: nothing is left to take off.');
    expect(leftSentence(made, mm, false)).toContain('not known without a pattern');
  });
  test('inside, with the outer wedge favoured; on both, where both are', () => {
    const outer = { ...made, favours: 'outer', registerMm: 830, left: { outer: null, inner: bent } } as const;
    expect(leftSentence(outer, mm, true)).toMatch(
      /They agree at girth 830 mm; .* The outer wedge, .* is right everywhere. The inner is up to 0\.4° off \(0\.3 mm across the siding, at girth 500 mm\)/,
    );
    const both = {
      ...outer,
      favours: 'both',
      left: { outer: { ...bent, deg: -0.2 }, inner: { ...bent, deg: 0.2 } },
    } as const;
    expect(leftSentence(both, mm, true)).toMatch(/the outer is up to 0\.2° off .*, the inner is up to 0\.2° off/);
  });
});

test('where the wedges are cut off, and that too short is for good', () => {
  const made = rip({ rip: { heelBeyondMm: 30, headBeyondMm: 12 } });
  const said = endsSentence(made, mm);
  expect(said).toContain(`outer wedge ${mm(1842)}, from ${mm(-30)} to ${mm(1812)} along the stock from mark 1`);
  expect(said).toContain('fit the heel into its pocket first, then mark the head hard up to the deck');
  expect(said).toContain('Too long, it will not go in; too short, it stays short.');
});

test('what the batten came to, only where one was used', () => {
  expect(battenSentence(rip(), mm)).toBeUndefined();
  expect(battenSentence({ ...rip(), batten: { thicknessMm: 12, atHeadMm: 9.5 } }, mm)).toContain(
    'a batten 12 mm thick: half its thickness is taken out, which moves the last row by 9.5 mm',
  );
});

test('what the blade follows, with the worst mark', () => {
  const made = rip();
  const worst = made.blade.marks.reduce((a, b) => (b.degPerM / b.limitDegPerM > a.degPerM / a.limitDegPerM ? b : a));
  const said = bladeSentence(made, 'mm');
  expect(said).toContain(`After mark ${worst.mark} the bevel changes by ${worst.degPerM.toFixed(1)}° a metre`);
  expect(said).toContain('So the blade can follow everywhere.');
  // A 5/8 in blade is fed along 4 in as published: the least that is allowed, never told as less.
  const narrow = rip({ saw: { bladeWidthMm: 25.4 * 0.625, bladeThicknessMm: 0.9 } });
  expect(bladeSentence(narrow, 'inches and fractions')).toContain('needs a radius of 4 in or more');
  expect(bladeSentence(narrow, 'mm')).toMatch(
    /needs a radius of 102 mm or more; the line turns in \d+ mm at the least/,
  );
  const fast = { ...made, blade: { ...made.blade, marks: made.blade.marks.map((at) => ({ ...at, isTooFast: true })) } };
  expect(bladeSentence(fast, 'mm')).toContain('That is too fast.');
});
