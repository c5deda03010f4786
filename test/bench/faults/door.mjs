// npm run bench:faults [-- NUMBER [SEED]]: puts small faults into the program, one at a time, and counts those that a test notices.
import '../../../server/readTypescript.mjs';

await import('./smallFaults.ts');
