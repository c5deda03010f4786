// npm run bench:voice [-- forms|words]: what is understood of the voice in a saw's noise.
import '../../../server/readTypescript.mjs';

// Node says of its WASI, which speaks the voice that ours is compared with, that it may change.
process.env.NODE_NO_WARNINGS = '1';
await import('./main.ts');
