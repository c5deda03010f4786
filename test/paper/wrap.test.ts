/** How sentences are parted into lines on paper. */
import { expect, test } from 'vitest';
import { wrap } from '../../server/paper/draw/pen.ts';

const SENTENCE = 'Mark 1 comes first and lies 7 7/8 in from the heel end; mark 11 lies 12 25/32 in from the head end.';

test('a whole number of inches and its fraction stand on one line, however wide it is', () => {
  for (let wideMm = 20; wideMm < 160; wideMm++) {
    const lines = wrap(SENTENCE, 'plain', 4, wideMm);
    expect(lines.join(' ')).toBe(SENTENCE);
    expect(lines.join('\n')).not.toMatch(/\d\n\d+\//);
  }
});
