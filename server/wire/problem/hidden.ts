/** Characters that nobody sees, or that turn the rest of a line round. The one home of what a text may hold. */

const NOT_SEEN = /[\p{Cc}\p{Cs}\p{Co}\p{Zl}\p{Zp}]|(?![\uFE0E\uFE0F])[\p{Cf}\p{Default_Ignorable_Code_Point}]/u;
const EACH = new RegExp(NOT_SEEN.source, 'gu');
/** A table's text goes over many lines, and its cells may too. */
const IN_TABLES = new RegExp(String.raw`(?![\t\r\n])(?:${NOT_SEEN.source})`, 'u');

export const WITHOUT_HIDDEN = 'without invisible or direction-changing characters';

/** Some text on one line in which every character is seen. What a person writes (titles, labels, names) is refused otherwise. */
export const isOneLine = (text: string, atMostChars: number): boolean =>
  text !== '' && text.length <= atMostChars && !NOT_SEEN.test(text);

/** What a program reports, on one line: hidden characters become spaces. */
export const asOneLine = (text: string): string => text.replace(EACH, ' ');

/** Hidden characters written as escapes, so that they are seen. */
export const withEscapes = (text: string): string =>
  text.replace(EACH, (char) => {
    const code = char.codePointAt(0) ?? 0;
    return code > 0xffff ? `\\u{${code.toString(16)}}` : `\\u${code.toString(16).padStart(4, '0')}`;
  });

/** The first line of a table (counted from 1) that holds a hidden character, and that line; undefined where none does. */
export function hiddenInTable(text: string): { readonly line: number; readonly text: string } | undefined {
  const table = text.replace(/^\uFEFF/, '');
  const at = IN_TABLES.exec(table)?.index;
  if (at === undefined) return undefined;
  const before = table.slice(0, at).split(/\r\n|\n|\r/);
  return {
    line: before.length,
    text: (before.at(-1) ?? '').slice(-40) + (table.slice(at).split(/[\r\n]/, 1)[0] ?? ''),
  };
}
