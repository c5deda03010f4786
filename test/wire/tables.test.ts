import { describe, expect, it } from 'vitest';
import { describeProblem, type Result } from '../../server/core/errors.ts';
import { parsePattern } from '../../server/wire/table/parsePattern.ts';
import { parsePickUp } from '../../server/wire/table/parsePickUp.ts';

const linesOf = (result: Result<unknown>): readonly string[] => (result.ok ? [] : result.problems.map(describeProblem));
const pickUp = (text: string) => parsePickUp('p.csv', text);

describe('pickup.csv', () => {
  const wanted = {
    ok: true,
    value: [
      { girthMm: 0, bevelDeg: 1.5, weight: 1 },
      { girthMm: 90, bevelDeg: -2, weight: 1 },
    ],
  };
  it.each([
    ['plain', 'girth,bevel\n0,1.5\n90,-2'],
    ['columns in another order', 'bevel,girth\n1.5,0\n-2,90\n'],
    ['a byte order mark and Windows line ends', '\uFEFFgirth,bevel\r\n0,1.5\r\n90,-2\r\n'],
    ['old Macintosh line ends', 'girth,bevel\r0,1.5\r90,-2'],
    ['line ends of two kinds', 'girth,bevel\n"0","1.5"\r\n"90","-2"\n'],
    ['comments and blank lines', '# a "quoted, comment\n\ngirth,bevel\n  # here\n0,1.5\n\n,,\n90,-2\n#'],
    ['quoted cells and spaces', '"girth" , "bevel"\n "0", 1.5 \n90,"-2"'],
    ['capitals, and columns that stand empty', 'Girth,BEVEL,,\n0,1.5,,\n90,-2,,\n'],
    ['a length with its unit', 'girth,bevel\n0 in,1.5\n9 cm,-2'],
  ])('may have %s', (_, text) => {
    expect(pickUp(text)).toEqual(wanted);
  });

  it('keeps notes with commas, quotation marks and hash signs, and weights', () => {
    const parsed = pickUp('girth,bevel,note,weight\n0,1,"a, ""b"" # c",2\n2 3/8",2,3/8" off,\n');
    expect(parsed.ok ? [] : linesOf(parsed)).toEqual([]);
    expect(parsed).toMatchObject({
      value: [
        { note: 'a, "b" # c', weight: 2 },
        { girthMm: 60.325, note: '3/8" off', weight: 1 },
      ],
    });
  });

  it.each([
    ['', 'p.csv: found no heading; wanted a heading row: girth,bevel'],
    ['0,1\n9,2', 'p.csv, line 1: found the heading "0,1"; wanted a heading row: girth,bevel'],
    [
      'girth;bevel\n0;1',
      'p.csv, line 1: found the heading "girth;bevel", parted by semicolons; wanted cells parted by commas, with decimal points, under a heading row: girth,bevel',
    ],
    ['girth,bevle\n0,1', 'p.csv, line 1, column bevle: found "bevle"; wanted "bevel", the nearest known column'],
    ['girth,bevel,girth\n0,1,2', 'p.csv, line 1, column girth: found a second "girth"; wanted one such column'],
    [
      'girth,note\n0,1',
      'p.csv, line 1, column bevel: found the heading "girth,note"; wanted a heading row: girth,bevel',
    ],
    ['girth,bevel\n0,1', 'p.csv: found 1 row; wanted at least 2 rows'],
    ['girth,bevel\n0,"1\n9,2', 'p.csv, line 3: found a quotation mark that is never closed; wanted a table of cells'],
    ['girth,bevel\n0,1\n9,60', 'p.csv, row 2 (line 3), column bevel: found "60"; wanted degrees off square'],
    ['girth,bevel\n0,1\n9,', 'p.csv, row 2 (line 3), column bevel: found an empty cell; wanted degrees off square'],
    ['girth,bevel\n0,1\n9,NaN', 'p.csv, row 2 (line 3), column bevel: found "NaN"; wanted degrees off square'],
    [
      'girth,bevel\n0,1\n9,"2,5"',
      'p.csv, row 2 (line 3), column bevel: found "2,5"; wanted degrees off square, more than -60 and less than 60, standing positive, with a decimal point',
    ],
    [
      'girth,bevel\n0,1\n9,2,5',
      'p.csv, row 2 (line 3): found 3 cells: "9,2,5"; wanted a cell for each of girth, bevel, with decimal points and no decimal commas',
    ],
    ['girth,bevel\n9,1\n8,2', 'p.csv, row 2 (line 3), column girth: found "8"; wanted 9 or more, the girth of row 1'],
    [
      'girth,bevel\n-9,1\n9,2',
      'p.csv, row 1 (line 2), column girth: found "-9"; wanted a distance from the heel, 0 or more',
    ],
    ['girth,bevel,weight\n0,1,0\n9,2,', 'p.csv, row 1 (line 2), column weight: found "0"; wanted a weight from'],
  ])('is refused with the place: %j', (text, line) => {
    expect(linesOf(pickUp(text))).toEqual([expect.stringContaining(line)]);
  });

  it('has at most 5,000 rows', () => {
    const table = (rows: number) =>
      `girth,bevel\n${Array.from({ length: rows }, (_, i) => `${i},1`).join('\n')}\n,,\n# end\n`;
    expect(pickUp(table(5000)).ok).toBe(true);
    expect(linesOf(pickUp(table(5001)))).toEqual(['p.csv: found more than 5000 rows; wanted at most 5000 rows']);
  });
});

describe('pattern.csv', () => {
  it('holds points from heel to head, on either side of the middle line', () => {
    expect(parsePattern('e.csv', 'z,y\n0,-1\n1 in,0.5\n')).toEqual({
      ok: true,
      value: [
        { yMm: -1, zMm: 0 },
        { yMm: 0.5, zMm: 25.4 },
      ],
    });
  });
  it('is refused with the place', () => {
    expect(linesOf(parsePattern('e.csv', 'y,z\n1,2\n1,2\nx,\n'))).toEqual([
      'e.csv, row 2 (line 3), column y: found "1"; wanted a point that is not the point of the row before it',
      expect.stringContaining('e.csv, row 3 (line 4), column y: found "x"'),
      expect.stringContaining('e.csv, row 3 (line 4), column z: found an empty cell'),
    ]);
    expect(linesOf(parsePattern('e.csv', 'y,z\n1,2\n'))).toEqual(['e.csv: found 1 row; wanted at least 2 rows']);
  });
  it('is refused where it runs from the head to the heel: radii and girths would be the other way round', () => {
    expect(linesOf(parsePattern('e.csv', 'y,z\n420,380\n300,210\n140,90\n'))).toEqual([
      'e.csv, row 1 (line 2), column z: found "380"; wanted the heel\'s height, and the points from heel to head: the last one, z "90", lies lower or farther in, so list them the other way round',
    ]);
    expect(parsePattern('e.csv', 'y,z\n400,100\n200,102\n0,101\n').ok).toBe(false);
    // Tumbled home, dipping, a floor timber across the middle line that is level but for the errors of its points.
    expect(parsePattern('e.csv', 'y,z\n140,90\n300,80\n420,380\n100,900\n').ok).toBe(true);
    expect(parsePattern('e.csv', 'y,z\n-400,102\n0,90\n400,100\n').ok).toBe(true);
  });
});
