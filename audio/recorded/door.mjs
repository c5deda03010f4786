// The worker thread's way in: tsx on Node 20 refuses a .ts file here. No tsconfig of the folder it is started from counts.
import { register } from 'tsx/esm/api';

register({ tsconfig: false });
export const { prepare, finish } = await import('./prepare.ts');
