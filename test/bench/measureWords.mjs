// node test/bench/measureWords.mjs: measures the embedded voice anew and rewrites server/core/words/*/measuredWords.ts.
import '../../server/readTypescript.mjs';

await import('./measureWords.ts');
