import { describe, expect, it } from 'vitest';
import { progressOn } from '../../../server/commands/door/progress.ts';

function shown(isTTY: boolean, atMs: readonly number[]) {
  let text = '';
  let now = 0;
  const err = { isTTY, write: (more: string) => (text += more) };
  const progress = progressOn(err, 'runs', 10, () => now);
  for (const ms of atMs) {
    now = ms;
    progress.done(1);
  }
  progress.end();
  return text;
}

describe('progress', () => {
  it('says nothing of what takes less than a second', () => {
    expect(shown(true, [100, 500, 990])).toBe('');
    expect(shown(false, [100, 500, 990])).toBe('');
  });

  it('is a bar that overwrites itself where somebody looks, and goes away at the end', () => {
    const text = shown(true, [500, 1000, 1050, 1500]);
    expect(text).toBe(
      [
        '\r\u001b[K[=====                   ] 2 of 10 runs, about 4 s to go',
        '\r\u001b[K[==========              ] 4 of 10 runs, about 2 s to go',
        '\r\u001b[K',
      ].join(''),
    );
  });

  it('is a line now and then elsewhere', () => {
    const text = shown(false, [1000, 1100, 2000, 3100, 3200]);
    expect(text).toBe('1 of 10 runs\n4 of 10 runs, about 5 s to go\n');
  });
});
