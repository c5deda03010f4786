/** An attack as a process of its own, so that what it costs itself is not the honest sender's. */
import { ATTACKS, isAttack } from './attacks.ts';

const [name = '', url = ''] = process.argv.slice(2);
if (!isAttack(name) || url === '') {
  console.error(`door.mjs NAME URL, where NAME is one of ${Object.keys(ATTACKS).join(', ')}`);
  process.exit(2);
}
await ATTACKS[name](url);
console.log('attacking');
