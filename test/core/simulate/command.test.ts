/** `simulate` as it is called from the shell. */
import { fileURLToPath } from 'node:url';
import { describe, expect, it, test } from 'vitest';
import { cli } from '../../../server/cli.ts';
import { CHOICES } from '../../../server/core/simulate/choices.ts';

const DEMO = fileURLToPath(new URL('../../../server/demo/job.json', import.meta.url));

async function run(...args: string[]) {
  const said = { out: '', err: '' };
  const write = (to: 'out' | 'err') => ({
    write: (text: string) => {
      said[to] += text;
    },
  });
  return { code: await cli(['simulate', ...args], { out: write('out'), err: write('err') }), ...said };
}

describe('the command simulate', () => {
  it('says a table with a line for each routine that the name begins', async () => {
    const { code, out } = await run(DEMO, '--feed', '3', '--routine', 'mark by mark');
    expect(code).toBe(0);
    expect(out).toContain('3 m/min');
    for (const name of Object.keys(CHOICES).filter((each) => each.startsWith('mark by mark')))
      expect(out).toMatch(new RegExp(`^${name} +[\\d.]+ +[\\d.]+`, 'm'));
    expect(out).not.toMatch(/^following/m);
  });

  it('gives the same figures for the same seed, as JSON with what they rest on', async () => {
    const args = [DEMO, '--routine', 'shop', '--seed', '7', '--json'];
    const [one, two, other] = [await run(...args), await run(...args), await run(...args.with(4, '8'))];
    expect(one.out).toBe(two.out);
    expect(other.out).not.toBe(one.out);
    const said = JSON.parse(one.out);
    expect(said).toMatchObject({ format: 'by-the-mark/simulation@1', seed: 7, assumed: { hand: { reactionMs: 350 } } });
    expect(said.routines).toHaveLength(1);
    expect(said.routines[0].rmsDeg).toBeGreaterThan(0);
  });

  it('simulates as many runs as are asked for, over all cores, and says how they spread', async () => {
    const { code, out } = await run(DEMO, '--routine', 'mark by mark on the pedal', '--runs', '300', '--json');
    expect(code).toBe(0);
    const { runs, routines } = JSON.parse(out);
    expect(runs).toBe(300);
    const { rmsDeg, worstDeg, spread } = routines[0];
    expect(spread.rmsDeg.half).toBeLessThan(rmsDeg * 1.2);
    expect(spread.rmsDeg.most).toBeGreaterThanOrEqual(spread.rmsDeg.half);
    expect(spread.worstDeg.all).toBe(worstDeg);
  });

  test.each([
    ['a feed of nothing', [DEMO, '--feed', '0'], /--feed 0: wanted metres a minute/],
    ['a feed that is a word', [DEMO, '--feed', 'fast'], /--feed fast/],
    ['a routine that nobody knows', [DEMO, '--routine', 'guess'], /--routine "guess": wanted one of "shop routine"/],
    ['half a seed', [DEMO, '--seed', '1.5'], /--seed 1\.5: wanted a whole number/],
    ['no runs at all', [DEMO, '--runs', '0'], /--runs 0: wanted a whole number, at least 1/],
    ['runs without a number', [DEMO, '--runs', ''], /--runs : wanted a whole number/],
    ['no job', [], /no JOB given/],
    ['a job that is not there', ['none.json'], /none\.json: found no such file/],
  ])('%s ends with 2 and one line', async (_name, args, wanted) => {
    const { code, out, err } = await run(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(wanted);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });
});
