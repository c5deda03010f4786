/** Started from the shell by `door.mjs`. */
import { cli } from './cli.ts';

const exitCode = await cli(process.argv.slice(2), { out: process.stdout, err: process.stderr });
// Set rather than called, so that what was printed is written out before the process ends.
process.exitCode = exitCode;
