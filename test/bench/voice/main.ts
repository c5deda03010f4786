/**
 * The listening bench: what an ear that knows nothing of us understands of the calls in a band saw's noise. Voices, forms and
 * processing beside each other; the default by a rule; words that must not be taken for each other. All of it takes a quarter of an hour
 * of two quiet cores; `-- forms` or `-- words` takes one half of it.
 */
import { earMissing } from './ear.ts';
import { judgeForms } from './judgeForms.ts';
import { judgeWords } from './judgeWords.ts';
import { ABOUT } from './print.ts';

const PARTS = { forms: judgeForms, words: judgeWords };
type Part = keyof typeof PARTS;
const isPart = (name: string): name is Part => Object.hasOwn(PARTS, name);

const asked = process.argv.slice(2);
const missing =
  earMissing() ?? asked.filter((name) => !isPart(name)).map((name) => `no part "${name}": forms or words`)[0];
if (missing !== undefined) {
  console.error(missing);
  process.exit(2);
}

console.log(ABOUT);
let holds = true;
for (const part of asked.length === 0 ? (['words', 'forms'] as const) : asked.filter(isPart))
  holds = (await PARTS[part]()) && holds;
console.log(`\n${holds ? 'It holds.' : 'It does not hold.'}`);
process.exit(holds ? 0 : 1);
