/** What the user gave is wrong: ends a command with exit code 2 and one line for each problem. */
export class UserMistake extends Error {
  readonly lines: readonly string[];
  constructor(lines: readonly string[]) {
    super(lines.join('\n'));
    this.lines = lines.map((line) => line.replace(/\s*\n\s*/g, ' '));
  }
}
