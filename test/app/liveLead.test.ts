import { expect, it, onTestFinished } from 'vitest';
import { outsideClient } from '../kit/client.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { liveLeads } from '../kit/liveLead.ts';
import { startProgram } from '../kit/program.ts';

/** Made up: six marks, a quick crew, so that the run takes some eight seconds. */
const JOB = {
  job: {
    format: 'by-the-mark/job@1',
    units: 'mm',
    frame: { siding: 45 },
    shape: { pickup: 'pickup.csv' },
    marks: { spacing: 150 },
    crew: { reactionS: 0.2, turnsPerS: 1.5, feedMPerMin: 6 },
    saw: { degreesPerTurn: 4 },
  },
  files: { 'pickup.csv': 'girth,bevel\n0,4\n150,5.5\n300,7\n450,8\n600,8.5\n750,8.5\n' },
};

it('an outsider that plays a feed in real time hears every call end before its mark', async () => {
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const leads = await liveLeads(outsideClient(program.url), JOB, 0.6);
  expect(new Set(leads.map(({ mark }) => mark)).size).toBe(5);
  expect(leads).toHaveLength(5);
  // How near the lead is to what was asked for, `npm run bench -- live-lead` tells: a busy machine is late with one or the other.
  for (const { mark, leadMs } of leads) expect(leadMs, `mark ${mark}`).toBeGreaterThan(0);
}, 40_000);
