// A thread's way in: on Node 20 it cannot start on TypeScript.
import '../readTypescript.mjs';

export const { simulateSome } = await import('./simulateWorker.ts');
