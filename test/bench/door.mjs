// npm run bench [-- NAME...]: measures, each thing beside its alternative in the same run.
import { register } from 'tsx/esm/api';

register();
await import('./main.ts');
