import type { DraftStation } from './draftStation.ts';
import type { Units } from './parseLength.ts';
import type { ProblemList } from './problemList.ts';

export const isWideTable = (_text: string): boolean => false;
export function readWideOffsets(_f: string, _t: string, _u: Units, _p: ProblemList): readonly DraftStation[] {
  return [];
}
