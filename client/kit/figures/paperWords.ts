import type { PaperName, StripSize } from '../../../server/wire/request/papers.ts';

export const PAPER_WORDS: Readonly<Record<PaperName, string>> = {
  strip: 'Mark strip',
  sheet: 'Schedule and cards',
  'which-way': 'Which way round',
  board: 'Bevel board',
  'test-cuts': 'Test cuts',
};

export const SIZE_WORDS: Readonly<Record<StripSize, string>> = {
  a4: 'A4',
  letter: 'Letter',
  roll62: 'roll, 62 mm',
  tape24: 'tape, 24 mm',
};
