import type { FeedFrame } from '../../wire/message/feedFrame.ts';
import type { Command, Role } from '../../wire/message/messages.ts';
import type { KeyRole } from './access.ts';

export type PageName = 'index' | 'sawyer' | 'wheel' | 'codes' | 'record' | 'voice';

/** What a key opens, one list a door. */
export interface Rights {
  /** Read runs, plans, clips, records and mark codes. */
  readonly read: boolean;
  /** Plan jobs and make runs. */
  readonly plan: boolean;
  /** Make and revoke the keys of devices. */
  readonly devices: boolean;
  /** See and keep what was learnt of people. */
  readonly crew: boolean;
  /** See, record and forget voices. */
  readonly voices: boolean;
  /** Use the raw `/feed` and `/readout`. */
  readonly raw: boolean;
  readonly commands: readonly Command[];
  readonly joins: readonly Role[];
  readonly readings: readonly FeedFrame['kind'][];
  /** The first is where the device is sent when it asks for a page that is not its own. */
  readonly pages: readonly PageName[];
}

const EVERY_COMMAND: readonly Command[] = [
  'start',
  'start-without-sound',
  'stop-feed',
  'resume',
  'resume-without-sound',
  'finish',
];

export const RIGHTS: Readonly<Record<KeyRole, Rights>> = {
  console: {
    read: true,
    plan: true,
    devices: true,
    crew: true,
    voices: true,
    raw: true,
    commands: EVERY_COMMAND,
    joins: ['sawyer', 'wheel'],
    readings: ['pedal', 'mark', 'travel', 'tilt'],
    pages: ['index', 'sawyer', 'wheel', 'codes', 'record', 'voice'],
  },
  sawyer: {
    read: true,
    plan: false,
    devices: false,
    crew: false,
    voices: false,
    raw: false,
    commands: EVERY_COMMAND,
    joins: ['sawyer'],
    readings: ['pedal', 'mark', 'tilt'],
    pages: ['sawyer', 'codes', 'record'],
  },
  wheel: {
    read: true,
    plan: false,
    devices: false,
    crew: false,
    voices: false,
    raw: false,
    // Anyone at the saw may stop the feed; to start it again is the sawyer's.
    commands: ['stop-feed'],
    joins: ['wheel'],
    readings: ['tilt'],
    pages: ['wheel'],
  },
  signal: {
    read: false,
    plan: false,
    devices: false,
    crew: false,
    voices: false,
    raw: true,
    commands: [],
    joins: [],
    readings: ['pedal', 'mark', 'travel', 'tilt'],
    pages: [],
  },
};
