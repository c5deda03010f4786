#!/usr/bin/env node
import './readTypescript.mjs';

await import('./main.ts');
