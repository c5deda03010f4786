/**
 * Writes the snapshot of the newest version: `node test/journal/makeSnapshot.mjs`, once, in the change that brings the version.
 * Never again afterwards: a snapshot is what a released program has left on somebody's disk.
 */
import '../../server/readTypescript.mjs';

await import('./makeSnapshot.ts');
