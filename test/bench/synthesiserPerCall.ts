import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const SPEAKER = fileURLToPath(new URL('./speakOnce.mjs', import.meta.url));

/** The alternative to clips rendered beforehand: the same voice, started for each call. Gives the time to the first samples in ms. */
export async function synthesiserPerCall(text: string): Promise<number> {
  const askedMs = performance.now();
  const child = spawn(process.execPath, [SPEAKER, text], { stdio: ['ignore', 'pipe', 'inherit'] });
  const firstMs = await new Promise<number>((resolve, reject) => {
    child.stdout.once('data', () => resolve(performance.now() - askedMs));
    child.once('exit', (code) => code !== 0 && reject(new Error(`the synthesiser ended with ${code}`)));
  });
  await new Promise((resolve) => child.once('close', resolve));
  return firstMs;
}
