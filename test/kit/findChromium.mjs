/** Where a browser of Chromium's kind is installed, of any make; what is named in CHROMIUM comes first. */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

const COMMANDS = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'chrome',
  'microsoft-edge-stable',
  'microsoft-edge',
  'brave-browser',
  'vivaldi-stable',
];
const APPS = ['Chromium', 'Google Chrome', 'Microsoft Edge', 'Brave Browser'];
const WINDOWS_PROGRAMS = [
  'Google\\Chrome\\Application\\chrome.exe',
  'Microsoft\\Edge\\Application\\msedge.exe',
  'Chromium\\Application\\chrome.exe',
];

/** @returns {string | undefined} */
export function findChromium(env = process.env, platform = process.platform) {
  return [...(env.CHROMIUM ? [env.CHROMIUM] : placesOn(env, platform))].find(isProgram);
}

function placesOn(env, platform) {
  const onPath = (env.PATH ?? '').split(delimiter).flatMap((folder) => COMMANDS.map((name) => join(folder, name)));
  if (platform === 'darwin')
    return [...APPS.map((name) => `/Applications/${name}.app/Contents/MacOS/${name}`), ...onPath];
  if (platform !== 'win32') return onPath;
  const roots = [env.PROGRAMFILES, env['PROGRAMFILES(X86)'], env.LOCALAPPDATA].filter((root) => root !== undefined);
  return roots.flatMap((root) => WINDOWS_PROGRAMS.map((program) => `${root}\\${program}`));
}

function isProgram(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
