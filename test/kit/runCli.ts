import { cli } from '../../server/cli.ts';

/** A command as from the shell, but in this process, which is quicker: its exit code and what it said. */
export async function runCli(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  const said = { out: '', err: '' };
  const write = (to: 'out' | 'err') => ({
    write: (text: string) => {
      said[to] += text;
    },
  });
  return { code: await cli(args, { out: write('out'), err: write('err') }), ...said };
}
