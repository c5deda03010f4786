/** Which words are proposed where the crew feeds faster than the words of the yard allow. Figures made up, worked by hand. */
import { describe, expect, test } from 'vitest';
import { otherWords } from '../../../server/core/pace/fewerWordsSuggestion.ts';
import type { Pace } from '../../../server/core/routine/limits.ts';
import type { NumberForm } from '../../../server/core/words/voiceChoice.ts';

const paceOf = (limitMPerMin: number) => ({ limitMPerMin }) as Pace;
const MARK_AND_NATURAL = { form: 'mark and angle', numbers: 'natural' } as const;
const allows = (limits: Readonly<Partial<Record<NumberForm, number>>>) => {
  const asked: string[] = [];
  const limitIn = ({ form, numbers }: { readonly form: string; readonly numbers: NumberForm }): number => {
    asked.push(`${form}, ${numbers}`);
    return limits[numbers] ?? 0;
  };
  return { asked, limitIn };
};

describe('other words', () => {
  test('are not proposed where the crew’s own feed is allowed, just so or by far', () => {
    const { asked, limitIn } = allows({ natural: 9 });
    expect(otherWords(paceOf(3), 3, MARK_AND_NATURAL, limitIn)).toEqual([]);
    expect(otherWords(paceOf(5), 3, MARK_AND_NATURAL, limitIn)).toEqual([]);
    expect(asked).toEqual([]);
  });

  test('that change least come first: the angle alone in the yard’s own numbers, if that is enough', () => {
    const { limitIn } = allows({ natural: 3.2, 'two digits': 4, digits: 5 });
    expect(otherWords(paceOf(2), 3, MARK_AND_NATURAL, limitIn)).toEqual([
      { kind: 'words', form: 'angle', numbers: 'natural', allowsMPerMin: 3.2 },
    ]);
  });

  test('of other numbers those that are understood better in noise come before those that allow more', () => {
    const { limitIn } = allows({ natural: 2.5, 'two digits': 3, digits: 5 });
    expect(otherWords(paceOf(2), 3, MARK_AND_NATURAL, limitIn)).toMatchObject([{ numbers: 'two digits' }]);
  });

  test('are not the yard’s own again, where it says the angle alone already', () => {
    const { asked, limitIn } = allows({ digits: 9, 'two digits': 9, natural: 9 });
    expect(otherWords(paceOf(2), 3, { form: 'angle', numbers: 'digits' }, limitIn)).toMatchObject([
      { form: 'angle', numbers: 'two digits' },
    ]);
    expect(asked).not.toContain('angle, digits');
  });

  test('where none are enough, those that allow most, if that is a tenth more', () => {
    expect(otherWords(paceOf(2), 9, MARK_AND_NATURAL, allows({ natural: 2.1, digits: 2.2 }).limitIn)).toMatchObject([
      { numbers: 'digits', allowsMPerMin: 2.2 },
    ]);
    expect(otherWords(paceOf(2), 9, MARK_AND_NATURAL, allows({ natural: 2.1, digits: 2.19 }).limitIn)).toEqual([]);
  });

  test('allow what is told, which is rounded down: 2.999 is not 3', () => {
    const [words] = otherWords(paceOf(2), 3, MARK_AND_NATURAL, allows({ natural: 2.999 }).limitIn);
    expect(words?.kind === 'words' ? words.allowsMPerMin : 0).toBeLessThan(3);
  });
});
