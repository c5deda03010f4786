// npm run bench [-- NAME...]: measures, each thing beside its alternative in the same run.
import '../../server/readTypescript.mjs';

await import('./main.ts');
