// node test/bench/measureWords.mjs: measures the embedded voice anew and rewrites server/core/words/*/measuredWords.ts.
import { register } from 'tsx/esm/api';

register();
await import('./measureWords.ts');
