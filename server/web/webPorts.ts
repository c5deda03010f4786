/** What the web room needs of the rooms that it does not import; `app.ts` hands them in. */

import type { Problem, Result } from '../core/errors.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { Routine, RunMode } from '../core/routine/routine.ts';
import type { Call } from '../core/run/engine/events.ts';
import type { Debrief } from '../core/run/view/debrief.ts';
import type { Guide } from '../core/run/view/guide.ts';
import type { SavedPiece } from '../core/sawn/savePiece.ts';
import type { Warning } from '../core/warning.ts';
import type { TrialMade, TrialTold } from '../wire/job/trialJob.ts';
import type { CrewMember, HandOfRun, KeepRequest } from '../wire/kept/crew.ts';
import type { FeedChoice, JournalLine } from '../wire/kept/journalLine.ts';
import type { LoudspeakerState, RecordedVoice, VoiceHere } from '../wire/kept/voices.ts';
import type { FeedFrame } from '../wire/message/feedFrame.ts';
import type { Answer, Clip, Command, ListedRun, Listener, RunView } from '../wire/message/messages.ts';
import type { Follower } from '../wire/message/runFollower.ts';
import type { WireError } from '../wire/problem/wireError.ts';
import type { BodyName, BodyOf } from '../wire/request/bodies.ts';
import type { PaperTask } from '../wire/request/papers.ts';
import type { SaveRequest, TrialMeasuredRequest, TrialRequest } from '../wire/request/sawnRequests.ts';

export interface RunPort {
  readonly run: string;
  readonly plan: Plan;
  readonly clips: readonly Clip[];
  view(): RunView;
  guide(): Guide;
  command(command: Command): Promise<Answer>;
  /** A person says which mark is at the blade, where the record does not tell; 0 before the first. */
  placed(mark: number): Promise<Answer>;
  /** What the readout shows with the blade squared by the test block; refused where the run was made for another figure. */
  squared(seenDeg: number): Promise<Answer>;
  /** `source` names the connection, so that its loss can be told (`sourceClosed`). Settles once the reading is durable. */
  reading(source: string, frame: FeedFrame): Promise<Answer>;
  sourceClosed(source: string): void;
  /** A page that may send the foot's presses has joined under this name. */
  pageCame(source: string): void;
  /** A page's hearing as it changes; null when the page is gone. `page` names the connection. */
  hearing(page: string, listener: Listener | null): void;
  /** A sign of life of that page. */
  alive(page: string): void;
  /** What is being said at this moment, or waits for its own. */
  speaking(): Call | null;
  unplayed(page: string, told: { readonly id: string; readonly reason: string }): void;
  follow(follower: Follower): () => void;
  lines(): Iterable<JournalLine>;
  /** Takes its time, so that a run in progress does not wait for it. */
  debrief(): Promise<Debrief>;
}

export interface JobFiles {
  readonly job: unknown;
  readonly files: Readonly<Record<string, string>>;
}
/** With whom of the crew at the handwheel; nobody of that name is a problem at `tiltHand`. */
export interface PlanAsk extends JobFiles {
  readonly tiltHand?: string;
}
export type Planned =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly problems: readonly Problem[] };

type PlannedText =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export type MadeRun =
  | { readonly ok: true; readonly run: RunPort }
  /** What forbids the cut, where nobody has said why it may be made. */
  | { readonly ok: false; readonly forbidden: readonly Warning[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export interface WebPorts {
  /** Reads a long body in a thread; takes its bytes away. */
  readBody<N extends BodyName>(name: N, bytes: Uint8Array): Promise<BodyOf<N>>;
  /** Plans in a worker thread. */
  plan(ask: PlanAsk): Promise<Planned>;
  /** The same as JSON, made in the thread: a long plan takes time to write. */
  planText(ask: PlanAsk): Promise<PlannedText>;
  makeRun(
    ask: PlanAsk & {
      readonly mode: RunMode;
      readonly routine: Routine;
      readonly feed: FeedChoice;
      readonly voice?: string;
      readonly squareDeg?: number;
      /** Why it is made although the plan forbids the cut. */
      readonly despite?: string;
    },
  ): Promise<MadeRun>;
  /** The same run anew, for a readout that shows this where the blade is square; undefined for an unknown run. */
  makeAgain(run: string, seenDeg: number, despite?: string): Promise<MadeRun | undefined>;
  /** A paper of a plan as a PDF, drawn in a thread. */
  print(task: PaperTask): Promise<Uint8Array>;
  readonly sawn: SawnPort;
  readonly crew: CrewPort;
  /** Throws where it was kept and cannot be read. */
  run(id: string): RunPort | undefined;
  /** As far as they can be read, also where the run itself cannot; undefined for an unknown run. */
  linesOf(id: string): Iterable<JournalLine> | undefined;
  runs(): Promise<readonly ListedRun[]>;
  /** The jobs that the start page offers: the demo, and the one given with `--job`. */
  jobs(): readonly { readonly name: string; readonly title: string }[];
  job(name: string): JobFiles | undefined;
  /**
   * Absolute path of a clip's WAV by the last part of its url (`KEY.wav`), made again where a run's clip is gone or damaged;
   * undefined if there is none.
   */
  clipFile(key: string): Promise<string | undefined>;
  readonly voices: VoicesPort;
  /** Null where the server has no loudspeaker of its own (`--loudspeaker`). */
  readonly loudspeaker: LoudspeakerPort | null;
}

/** Pieces that were sawn and trials that are to be: reckoned in the planning thread. */
interface SawnPort {
  save(ask: SaveRequest): Promise<Result<SavedPiece>>;
  trial(ask: TrialRequest): Promise<Result<TrialMade>>;
  correct(ask: TrialMeasuredRequest): Promise<Result<TrialTold>>;
}

/** The voices, and the recordings of the yard's own. */
export interface VoicesPort {
  list(): Promise<readonly VoiceHere[]>;
  recorded(name: string): Promise<RecordedVoice | undefined>;
  /** Keeps a recording of these words in the place of an earlier one; `error` says what is wrong with it. */
  keep(
    name: string,
    text: string,
    wav: Uint8Array,
  ): Promise<
    | { readonly ok: true; readonly voice: string; readonly url: string; readonly durationMs: number }
    | { readonly ok: false; readonly error: WireError }
  >;
  forget(name: string): Promise<boolean>;
}

/** The server's own loudspeaker, for a shop without tablets. */
export interface LoudspeakerPort {
  state(): LoudspeakerState;
  /** Plays the test words and settles when they are over. */
  test(): Promise<LoudspeakerState>;
  /** A person says that the test words were heard; an error where none have been played since the sound last failed. */
  confirm():
    | { readonly ok: true; readonly state: LoudspeakerState }
    | { readonly ok: false; readonly error: WireError };
}

/** People of whom something was learnt and who agreed that it is kept. */
export interface CrewPort {
  members(): readonly CrewMember[];
  /** What a run tells of its tilt hand; undefined for an unknown run. */
  handOf(run: string): HandOfRun | undefined;
  /** Keeps it; undefined for an unknown run. */
  keep(
    ask: KeepRequest,
  ): { readonly ok: true; readonly member: CrewMember } | { readonly ok: false; readonly error: WireError } | undefined;
  /** False where nothing is kept of anyone of this name. */
  forget(name: string): boolean;
}
