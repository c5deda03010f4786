import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { outsideClient } from '../kit/client.ts';
import { liveLeads } from '../kit/liveLead.ts';
import { DOOR, startProgram } from '../kit/program.ts';

const SHARES = [0.5, 0.9];
const WITHIN_MS = 60;

/** An outside client plays a hand's feed on `/feed` in real time; when each call on `/readout` was over, beside the lead asked for. */
export async function liveLead(): Promise<void> {
  const program = await startProgram(mkdtempSync(join(tmpdir(), 'by-the-mark-')), [], DOOR);
  const client = outsideClient(program.url);
  const { json: job } = await client.get('/api/jobs/demo');
  for (const share of SHARES) {
    const leads = await liveLeads(client, job, share);
    const off = leads.map(({ leadMs, askedMs }) => leadMs - askedMs);
    const within = off.filter((ms) => Math.abs(ms) <= WITHIN_MS).length;
    const late = leads.filter(({ leadMs }) => leadMs < 0).length;
    console.log(
      `the demo at ${share} of its pace limit: ${leads.length} calls, ${late} over behind their mark; lead less lead asked for ${Math.min(...off).toFixed(0)} to ${Math.max(...off).toFixed(0)} ms, ${within} of them within ${WITHIN_MS} ms`,
    );
  }
  await program.end('SIGTERM');
}
