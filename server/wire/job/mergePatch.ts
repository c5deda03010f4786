/** RFC 7396, JSON Merge Patch: objects are merged field by field, null takes a field out, anything else takes its place. */
import { isObject } from './jobSection.ts';

export function mergePatch(target: unknown, patch: unknown): unknown {
  if (!isObject(patch)) return patch;
  const merged = new Map(isObject(target) ? Object.entries(target) : []);
  for (const [name, value] of Object.entries(patch))
    if (value === null) merged.delete(name);
    else merged.set(name, mergePatch(merged.get(name), value));
  return Object.fromEntries(merged);
}
