import type { PaceSuggestion } from '../routine/limits.ts';
import type { NumberForm } from '../words/voiceChoice.ts';
import { ROUTINE_WORDS } from './routineWords.ts';

/** How figures are said where the words are shown: in the user's own units, feeds never rounded up. */
interface SayFigures {
  feed(mPerMin: number): string;
  length(mm: number): string;
  duration(seconds: number): string;
}

/** A suggestion in one sentence. */
export function suggestionText(suggestion: PaceSuggestion, say: SayFigures): string {
  switch (suggestion.kind) {
    case 'slow': {
      const { fromMark, toMark, toMPerMin, durationS } = suggestion;
      return `Slow to ${say.feed(toMPerMin)} between marks ${fromMark} and ${toMark}: the rip then takes ${say.duration(durationS)}.`;
    }
    case 'marks': {
      const { fromMark, toMark, spacingMm, moreMarks, allowsMPerMin } = suggestion;
      const change = moreMarks === 0 ? 'as many as now' : `${Math.abs(moreMarks)} ${moreMarks > 0 ? 'more' : 'fewer'}`;
      return `Marks about ${say.length(spacingMm)} apart between marks ${fromMark} and ${toMark} (${change}) would allow ${say.feed(allowsMPerMin)} there.`;
    }
    case 'words': {
      const { numbers, allowsMPerMin } = suggestion;
      return `The angle alone, in ${NUMBERS[numbers]}, would allow ${say.feed(allowsMPerMin)}.`;
    }
    case 'routine': {
      const { routine, allowsMPerMin } = suggestion;
      const allows = allowsMPerMin === null ? 'any feed' : say.feed(allowsMPerMin);
      return `With a measuring wheel, ${ROUTINE_WORDS[routine].doing} would allow ${allows}.`;
    }
  }
}

const NUMBERS: Readonly<Record<NumberForm, string>> = {
  natural: 'natural numbers ("twelve and a half")',
  digits: 'digits ("one two point five")',
  'two digits': 'always two digits ("one two decimal five")',
};
