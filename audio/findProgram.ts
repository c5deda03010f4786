import { accessSync, constants, statSync } from 'node:fs';
import { delimiter, isAbsolute, join } from 'node:path';

/**
 * Absolute path of a program that the machine's own PATH leads to; undefined where there is none. Folders of PATH that are not
 * absolute are passed over: what is started must not hang on where the server was started from.
 */
export function findProgram(name: string, path = process.env.PATH ?? ''): string | undefined {
  return path
    .split(delimiter)
    .filter(isAbsolute)
    .map((folder) => join(folder, name))
    .find(isProgram);
}

function isProgram(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    return false;
  }
}
