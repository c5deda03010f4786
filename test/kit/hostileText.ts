import fc from 'fast-check';

const PIECES = [
  '"',
  "'",
  '`',
  '\\',
  '(system "touch here")',
  '") (system "touch here") (SayText "',
  '$(touch here)',
  '$IFS',
  '; touch here',
  '| touch here',
  '&& touch here',
  '> here',
  '-v',
  '--version',
  '-o here.wav',
  '@file',
  '\n',
  '\r\n',
  '\0',
  '\u2028',
  '../../here',
  '/etc/passwd',
  '%PATH%',
  '$env:PATH',
  '<speak>',
  '[[fIv]]',
  '*',
  '~',
  '#',
  '!',
  'four',
  'stop',
  ' ',
] as const;

/** What somebody would type who wants more than words to come of it. */
export const hostileText: fc.Arbitrary<string> = fc.oneof(
  fc.array(fc.constantFrom(...PIECES), { minLength: 1, maxLength: 5 }).map((pieces) => pieces.join('')),
  fc.string({ unit: 'binary', minLength: 1, maxLength: 30 }),
);
