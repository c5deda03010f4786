// npm run bench:faults [-- NUMBER [SEED]]: puts small faults into the program, one at a time, and counts those that a test notices.
import { register } from 'tsx/esm/api';

register();
await import('./smallFaults.ts');
