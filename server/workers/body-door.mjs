// Node 20 cannot start a worker on TypeScript: this door teaches it to first.
import { register } from 'tsx/esm/api';

// No tsconfig of the folder that the program was started in counts here.
register({ tsconfig: false });
export const { readLongBody } = await import('./bodyWorker.ts');
