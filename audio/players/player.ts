/** Something on this machine that makes a sound of a clip. One at a time is its user's affair. */
export interface Spoken {
  readonly text: string;
  /** Absolute path of its WAV, made by this program. */
  readonly file: string;
  readonly durationMs: number;
}

export interface Playing {
  /** Null when it was played to its end; otherwise why not. Never rejects. */
  readonly ended: Promise<string | null>;
  /** Silences it at once. */
  stop(): void;
}

export interface Player {
  readonly name: string;
  play(spoken: Spoken): Playing;
}

/** A player that has not come to its end so long after the clip should have is stuck. */
export const OVERRUN_MS = 4000;
