/**
 * The loudspeaker of the server's own machine, as a listener like any other: it is listed with the runs, confirmed by somebody who
 * hears its test words, speaks one call at a time, falls silent at once when a call is taken back, and tells when it fails.
 */
import { msText } from '../server/core/figures/durations.ts';
import { TOO_LATE_MS } from '../server/core/hearing/earLimits.ts';
import type { Call } from '../server/core/run/engine/events.ts';
import { phrases } from '../server/core/words/phrases.ts';
import { type LoudspeakerState, SERVER_EAR } from '../server/wire/kept/voices.ts';
import type { Clip, Hearing, Listener } from '../server/wire/message/messages.ts';
import type { WireError } from '../server/wire/problem/wireError.ts';
import { createCallSpeech } from './callSpeech.ts';
import type { Player, Spoken } from './players/player.ts';
import { createPlayerTrial } from './playerTrial.ts';

/** What it needs of a run. */
export interface SpokenRun {
  readonly run: string;
  readonly clips: readonly Clip[];
  isFinished(): boolean;
  hearing(page: string, listener: Listener | null): void;
  unplayed(page: string, told: { readonly id: string; readonly reason: string }): void;
  follow(follower: { readonly call: (call: Call) => void; readonly cancel: (id: string) => void }): () => void;
}

interface LoudspeakerNeeds {
  /** At least one; the likeliest to be heard first. */
  readonly players: readonly Player[];
  /** Unix time in ms. */
  readonly nowMs: () => number;
  /** Absolute path of a clip of a run; undefined where there is none. */
  readonly fileOf: (clip: Clip) => Promise<string | undefined>;
  /** The clip of the test words. */
  readonly testWords: () => Promise<Spoken>;
}

export interface ServerLoudspeaker {
  /** From now on it speaks this run; once is enough. */
  join(run: SpokenRun): void;
  state(): LoudspeakerState;
  /** Plays the test words, by the next player too if the first cannot; settles when they are over. */
  test(): Promise<LoudspeakerState>;
  /** A person says that the test words were heard. */
  confirm():
    | { readonly ok: true; readonly state: LoudspeakerState }
    | { readonly ok: false; readonly error: WireError };
  close(): void;
}

interface Joined {
  readonly run: SpokenRun;
  readonly files: Map<string, Spoken>;
  readonly leave: () => void;
  hearing: Hearing;
}

export function createLoudspeaker({ players, nowMs, fileOf, testWords }: LoudspeakerNeeds): ServerLoudspeaker {
  const [likeliest] = players;
  if (likeliest === undefined) throw new Error('a loudspeaker needs a player, found none');
  let player = likeliest;
  let state: LoudspeakerState = { player: player.name, hearing: 'silent', tested: false, why: null, delayMs: 0 };
  const joined = new Map<string, Joined>();
  let testing: Promise<LoudspeakerState> | null = null;
  let isClosed = false;
  const trial = createPlayerTrial(players);
  const speech = createCallSpeech({
    play: (spoken) => player.play(spoken),
    onBegin: trial.cutOff,
    onFailed: ({ run, id }, why) => {
      const reason = `${player.name}: ${why}`;
      change({ hearing: 'suspended', tested: false, why: reason });
      joined.get(run)?.run.unplayed(SERVER_EAR, { id, reason });
    },
  });

  function change(patch: Partial<LoudspeakerState>): void {
    state = { ...state, ...patch };
    for (const each of joined.values()) tellHearing(each);
  }

  function tellHearing({ run, hearing }: Joined): void {
    if (run.isFinished()) return;
    const heard = hearing === 'loading' || hearing === 'suspended' ? hearing : state.hearing;
    const label = heard === 'suspended' ? `Server’s loudspeaker (${state.player}, failed)` : 'Server’s loudspeaker';
    run.hearing(SERVER_EAR, { id: SERVER_EAR, label, role: 'wheel', hearing: heard, delayMs: state.delayMs });
  }

  async function load(each: Joined): Promise<void> {
    tellHearing(each);
    try {
      for (const clip of each.run.clips) {
        const file = await fileOf(clip);
        if (file === undefined) throw new Error(`no clip says "${clip.text}"`);
        each.files.set(clip.text, { text: clip.text, file, durationMs: clip.durationMs });
      }
      each.hearing = 'silent';
    } catch (error) {
      each.hearing = 'suspended';
      state = { ...state, why: String(error instanceof Error ? error.message : error) };
    }
    if (!isClosed) tellHearing(each);
  }

  function call({ run, files }: Joined, given: Call): void {
    if (isClosed) return;
    const spoken = files.get(given.text);
    const lateMs = nowMs() - given.startsAtMs;
    const isBusy = speech.isBusyWithAnother(run.run);
    if (spoken === undefined || lateMs > TOO_LATE_MS || isBusy) {
      const late = isBusy ? 'the loudspeaker speaks for another run' : `${msText(lateMs)} late`;
      run.unplayed(SERVER_EAR, { id: given.id, reason: spoken === undefined ? `no clip says "${given.text}"` : late });
      return;
    }
    speech.say({ run: run.run, id: given.id }, spoken, -lateMs);
  }

  async function test(): Promise<LoudspeakerState> {
    const tried = await trial.try(await testWords());
    if (isClosed || tried.kind === 'cut off') return state;
    if (tried.kind === 'failed') change({ hearing: 'suspended', tested: false, why: tried.why });
    else {
      player = tried.player;
      // Confirmed it stays confirmed: this is a test of what was heard before.
      const hearing = state.hearing === 'suspended' ? 'silent' : state.hearing;
      change({ player: player.name, hearing, tested: true, why: null, delayMs: tried.delayMs });
    }
    return state;
  }

  return {
    join(run) {
      if (joined.has(run.run) || run.isFinished() || isClosed) return;
      const each: Joined = {
        run,
        files: new Map(),
        hearing: 'loading',
        leave: run.follow({
          call: (given) => call(each, given),
          cancel: (id) => speech.takeBack({ run: run.run, id }),
        }),
      };
      joined.set(run.run, each);
      void load(each);
    },
    state: () => state,
    test() {
      // Never over a call: the test words would be heard for one, and two at once are understood by nobody.
      if (!speech.isIdle()) return Promise.resolve(state);
      testing ??= test().finally(() => {
        testing = null;
      });
      return testing;
    },
    confirm() {
      if (!state.tested)
        return {
          ok: false,
          error: { code: 'not-tested', message: `play "${phrases.soundTest}" on the server’s loudspeaker first` },
        };
      change({ hearing: 'confirmed', why: null });
      return { ok: true, state };
    },
    close() {
      isClosed = true;
      for (const { leave } of joined.values()) leave();
      speech.hush();
      trial.cutOff();
    },
  };
}
