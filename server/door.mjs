#!/usr/bin/env node
// Node 20 cannot read TypeScript by itself: this door teaches it to, from whatever folder it is started in.
import { register } from 'tsx/esm/api';

register({ tsconfig: false });
await import('./main.ts');
