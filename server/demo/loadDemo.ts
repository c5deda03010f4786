import { readFile } from 'node:fs/promises';

const read = (name: string): Promise<string> => readFile(new URL(name, import.meta.url), 'utf8');

/** The invented job that the start page offers: its files as they lie in this folder. */
export async function loadDemo() {
  const [job, pickUp, pattern] = await Promise.all([read('job.json'), read('pickup.csv'), read('pattern.csv')]);
  const parsed = JSON.parse(job) as { title: string };
  return { name: 'demo', title: parsed.title, job: parsed, files: { 'pickup.csv': pickUp, 'pattern.csv': pattern } };
}

/** A frame of the same invented boat by its table of offsets. */
export async function loadOffsetsDemo() {
  const [job, offsets] = await Promise.all([read('offsets-job.json'), read('offsets.csv')]);
  const parsed = JSON.parse(job) as { title: string };
  return { name: 'demo-offsets', title: parsed.title, job: parsed, files: { 'offsets.csv': offsets } };
}
