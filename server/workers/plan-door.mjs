// A thread's way in: on Node 20 it cannot start on TypeScript.
import '../readTypescript.mjs';

export const { planJob, planJobAsText } = await import('./planWorker.ts');
export const { savePieceOf, makeTrial, correctByTrial } = await import('./sawnWorker.ts');
