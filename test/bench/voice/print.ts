import { CLIP_LUFS } from '../../../audio/pcm/makeClip.ts';
import { type FormRow, shareAt } from './forms.ts';
import type { Listened } from './listenTo.ts';
import { PLACES } from './places.ts';
import { BROADBAND, TOOTH_HZ } from './sawNoise.ts';
import { speakerName } from './speakers.ts';
import type { WordsHeard } from './words.ts';

export const percent = (share: number): string => (Number.isNaN(share) ? '' : (share * 100).toFixed(1));

export const ABOUT = `The ear is pocketsphinx with its US English model and a closed list of texts; it is not a person, and says only what is better.
The saw's noise is an assumption: ${BROADBAND.map(([hz, db]) => `${hz} Hz ${db}`).join(', ')} dB for each hertz's width, and a hum of the teeth at
${TOOTH_HZ} Hz with two overtones, a quarter as strong as the rest. +20 to 0: how many LU (BS.1770) the call stands over it. Every
clip is as loud as every other (${CLIP_LUFS} LUFS), processed or not. muff +5: both through an earmuff, with the ear's own noise.`;

export function formTable(rows: readonly FormRow[]): string {
  const head = ['voice, words a minute', 'form', 'processed', ...PLACES.map(({ name }) => name), 'mean s'];
  return columns([
    head,
    ...rows.map(({ speaker, form, isProcessed, listened }) => [
      speakerName(speaker),
      form,
      isProcessed ? 'yes' : 'no',
      ...PLACES.map(({ name }) => percent(shareAt(listened, name))),
      listened.meanS.toFixed(2),
    ]),
  ]);
}

export function wordTable(words: readonly WordsHeard[]): string {
  return columns(
    words.map(({ text, isOurs, at }) => [
      `${isOurs ? '*' : ' '} ${text}`,
      ...at.flatMap(({ place, share, takenFor }) => [`${place}: ${percent(share)}`, takenFor.slice(0, 3).join(', ')]),
    ]),
  );
}

export const mistakeLines = ({ heard }: Listened): string =>
  heard
    .flatMap(({ place, mistakes }) => (place === '+5' ? mistakes : []))
    .map(({ said, heard: taken }) => `    at +5: ${said} -> ${taken === '' ? 'nothing' : taken}`)
    .join('\n');

function columns(rows: readonly (readonly string[])[]): string {
  const widths = rows.reduce<readonly number[]>(
    (most, row) => row.map((cell, i) => Math.max(most[i] ?? 0, cell.length)),
    [],
  );
  return rows
    .map((row) =>
      row
        .map((cell, i) => cell.padEnd(widths[i] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
