// A thread's way in: on Node 20 it cannot start on TypeScript.
import '../../../server/readTypescript.mjs';

export const { listenTo } = await import('./listenTo.ts');
