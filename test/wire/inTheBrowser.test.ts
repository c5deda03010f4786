import { join } from 'node:path';
import { createContext, runInContext } from 'node:vm';
import { build } from 'vite';
import { expect, it } from 'vitest';
import { goodFiles, goodJob } from './goodJobs.ts';

it('parsing needs nothing of Node: bundled for a browser it runs where only the language is', async () => {
  const built = await build({
    configFile: false,
    logLevel: 'silent',
    build: {
      write: false,
      minify: false,
      lib: {
        entry: join(import.meta.dirname, '../../server/wire/job/parseJob.ts'),
        formats: ['iife'],
        name: 'wire',
        fileName: 'wire',
      },
    },
  });
  const [bundle] = Array.isArray(built) ? built : [];
  if (bundle === undefined) throw new Error('vite built nothing');
  const result: unknown = runInContext(
    `${bundle.output[0].code}; JSON.stringify(wire.parseJob(JSON.parse(job), JSON.parse(files)))`,
    createContext({ job: JSON.stringify(goodJob()), files: JSON.stringify(goodFiles()) }),
  );
  expect(JSON.parse(String(result))).toMatchObject({ ok: true, value: { shape: { rows: { length: 4 } } } });
});
