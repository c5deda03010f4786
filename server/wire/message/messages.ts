/** What crosses between the server and its pages: the typed events of socket.io, and the answers of the HTTP API. */
import type { Plan } from '../../core/plan/plan.ts';
import type { Routine, RunMode } from '../../core/routine/routine.ts';
import type { Call, Lifeline, Notice } from '../../core/run/engine/events.ts';
import type { Phase } from '../../core/run/engine/state.ts';
import type { Guide } from '../../core/run/view/guide.ts';
import type { Damage } from '../kept/damage.ts';
import type { WireError } from '../problem/wireError.ts';
import type { FeedFrame } from './feedFrame.ts';

/** The role that a page plays in a run; a device's key opens one role only. */
export type Role = 'sawyer' | 'wheel';

/**
 * Whether a page can be heard: `loading` until every phrase is fetched and decoded; `silent` until its person has confirmed
 * the test phrase; `confirmed`; `suspended` when the browser has stopped its sound (locked phone, hidden tab, autoplay refused).
 */
export type Hearing = 'loading' | 'silent' | 'confirmed' | 'suspended';
export interface Listener {
  /** Chosen by the page and kept on the device. */
  readonly id: string;
  readonly label: string;
  readonly role: Role;
  readonly hearing: Hearing;
  /** From the moment at which a sound is begun until it is heard there; 0 where the device cannot tell. */
  readonly delayMs?: number;
  /** True where its person has chosen to hear stops and warnings but no bevels: somebody else's ears must. */
  readonly isWithoutBevels?: boolean;
}

/** A run as pages and the API see it. */
export interface RunView {
  readonly run: string;
  readonly title: string;
  readonly state: Phase;
  readonly mode: RunMode;
  readonly routine: Routine;
  readonly feed: 'external' | 'simulated';
  readonly mark: number;
  readonly marks: number;
  readonly nextMark: number | null;
  readonly nextDeg: number | null;
  readonly positionMm: number | null;
  readonly uncertaintyMm: number | null;
  readonly madeAtMs: number;
  readonly seq: number;
  readonly notice: Notice | null;
  /** What a lost run has lost; null in every other state. */
  readonly lost: Lifeline | null;
  /** Whether a press at the next mark is taken now: it is while feeding, and in some lost runs. */
  readonly takesPress: boolean;
  readonly listeners: readonly Listener[];
  /** What the readout must show with the blade square, and what was seen there; null in a rehearsal, where nobody is asked. */
  readonly square: { readonly wantedDeg: number; readonly seenDeg: number | null } | null;
  /** False after damage to the record: the run then goes on only when a person has said which mark is at the blade. */
  readonly isPlaceKnown: boolean;
  readonly record: RecordState;
}

/** How far the record of a run can be trusted. */
export interface RecordState {
  /** False in a run that was made before there were checksums: a change of its lines would not be noticed. */
  readonly isChecked: boolean;
  readonly damage: Damage | null;
}

/** In the list of runs, one that was kept and cannot be read any more. */
export interface UnreadableRun {
  readonly run: string;
  readonly isReadable: false;
  /** It will not feed. */
  readonly state: 'stopped';
  readonly title: string | null;
  readonly madeAtMs: number | null;
  readonly record: RecordState;
}
export type ListedRun = RunView | UnreadableRun;
export const canBeRead = (run: ListedRun): run is RunView => !('isReadable' in run);

export interface Clip {
  readonly text: string;
  readonly url: string;
  readonly durationMs: number;
  readonly deg?: number;
  readonly mark?: number;
  /** Who says it, where it is not the embedded voice. */
  readonly voice?: string;
}

/** `kept: false`: a stop that was taken although the record has failed. */
export type Answer =
  | { readonly ok: true; readonly seq: number }
  | { readonly ok: true; readonly kept: false }
  | { readonly ok: false; readonly error: WireError };
export type Command = 'start' | 'start-without-sound' | 'stop-feed' | 'resume' | 'resume-without-sound' | 'finish';

export type Joined =
  | {
      readonly ok: true;
      readonly view: RunView;
      readonly plan: Plan;
      readonly clips: readonly Clip[];
      /** What is being said at this moment: a page that comes in the middle of it has missed it. */
      readonly speaking: Call | null;
    }
  | { readonly ok: false; readonly error: WireError };

export interface ServerToPage {
  view: (view: RunView) => void;
  guide: (guide: Guide) => void;
  /** `startsAtMs` is in the server's clock (Unix ms). */
  call: (call: Call) => void;
  cancel: (id: string) => void;
  notice: (notice: Notice) => void;
  /** Five times a second: the server is there, and this is its time. */
  beat: (serverMs: number) => void;
}
export interface PageToServer {
  join: (ask: { run: string; role: Role }, answer: (joined: Joined) => void) => void;
  reading: (frame: FeedFrame, answer: (answer: Answer) => void) => void;
  command: (command: Command, answer: (answer: Answer) => void) => void;
  hearing: (listener: Listener) => void;
  /** A call that this page could not play in time, and why. */
  unplayed: (told: { id: string; reason: string }) => void;
  clock: (answer: (serverMs: number) => void) => void;
}
