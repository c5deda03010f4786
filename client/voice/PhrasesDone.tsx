import { Note } from '../kit/parts/Note.tsx';

/** Every phrase of the list is recorded. */
export const PhrasesDone = ({ name }: { readonly name: string }) => (
  <Note kind="plain" word="All recorded">
    A run can be made with {name}’s voice now: choose it on the start page, under “Who speaks”.
  </Note>
);
