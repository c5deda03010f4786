/** Runs the benches by name, all of them by default, and prints one table each. */
import { damage } from './damage.ts';
import { ears } from './ears.ts';
import { offsets } from './hull/offsets.ts';
import { offsetsError } from './hull/offsetsError.ts';
import { liveLead } from './liveLead.ts';
import { paceLimit } from './paceLimit.ts';
import { pedalToCall } from './pedalToCall.ts';
import { pedalToSound } from './pedalToSound.ts';
import { pointer } from './pointer.ts';
import { starved } from './starved.ts';
import { stoodStill } from './stoodStill.ts';
import { tenThousandRuns } from './tenThousandRuns.ts';
import { tiltError } from './tiltError.ts';

const benches: Readonly<Record<string, () => Promise<void>>> = {
  'pedal-to-call': pedalToCall,
  'pedal-to-sound': pedalToSound,
  pointer,
  'live-lead': liveLead,
  'tilt-error': tiltError,
  'ten-thousand-runs': tenThousandRuns,
  'pace-limit': paceLimit,
  offsets,
  damage,
  ears,
  'stood-still': stoodStill,
  'offsets-error': offsetsError,
  starved,
};
const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !(name in benches));
if (unknown.length > 0) {
  console.error(`no bench ${unknown.join(', ')}; there are ${Object.keys(benches).join(', ')}`);
  process.exit(2);
}
for (const [name, run] of Object.entries(benches)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  console.log(`\n# ${name}`);
  await run();
}
process.exit();
