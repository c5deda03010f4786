// Node 20 cannot start a worker on TypeScript: this door teaches it to first.
import { register } from 'tsx/esm/api';

register();
export const { listenTo } = await import('./listenTo.ts');
