// npm run bench:voice [-- forms|words]: what is understood of the voice in a saw's noise.
import { register } from 'tsx/esm/api';

// Node says of its WASI, which speaks the voice that ours is compared with, that it may change.
process.env.NODE_NO_WARNINGS = '1';
register();
await import('./main.ts');
