import { german } from './de/german.ts';
import { english } from './en/english.ts';
import type { Grammar } from './grammar.ts';
import type { Language } from './voiceChoice.ts';

const GRAMMARS: Readonly<Record<Language, Grammar>> = { en: english, de: german };

export const grammarOf = (language: Language): Grammar => GRAMMARS[language];

/** Every language that a run can speak; the first is the default. */
export const LANGUAGES = ['en', 'de'] as const satisfies readonly [Language, ...Language[]];
