/**
 * A whole run with a modelled feed and a modelled tilt hand, faster than real time: the very engine that runs at the saw, with
 * other sources. The same seed gives the same run.
 */
import { followOn, type Hand, type HandTraits, hear, hold, restingHand, turnOn } from '../hand/hand.ts';
import { type Draws, draws } from '../numeric/draws.ts';
import type { Call, RunEffect, RunEvent } from '../run/events.ts';
import { type FeedModel, standingFeed, stepFeed } from '../run/feedModel.ts';
import { guideAt, tiltAt } from '../run/guide.ts';
import { initialState } from '../run/initialState.ts';
import type { RunSetup, RunState } from '../run/state.ts';
import { step } from '../run/step.ts';
import { tanDeg } from '../units.ts';

export interface Simulation {
  readonly setup: RunSetup;
  readonly sidingMm: number;
  readonly mPerMin: number;
  readonly seed: number;
  readonly hand: HandTraits;
  /** What tells where the stock is. `shop`: nothing does; the sawyer calls each number as its mark reaches the blade. */
  readonly source: 'travel' | 'scan' | 'press' | 'shop';
  /** In `following`: the hand sees its own tilt to the readout's step, or on a tilt sensor. */
  readonly seesTilt?: 'readout' | 'sensor';
  /** Places at which the feed is stopped for a while, and after which it is resumed. */
  readonly stops?: readonly { readonly atMm: number; readonly forMs: number }[];
}

export interface Simulated {
  /** Tilt had less tilt wanted, at the blade, over the length of the stock. */
  readonly rmsDeg: number;
  readonly worstDeg: number;
  /** What the worst error leaves between planking and frame, across the siding. */
  readonly worstGapMm: number;
  readonly durationS: number;
  readonly calls: readonly SimulatedCall[];
  readonly missed: readonly { readonly mark: number; readonly reason: string }[];
}
export interface SimulatedCall {
  readonly mark: number | null;
  readonly deg: number | null;
  readonly startsAtMs: number;
  /** When its words were over, or it was cut off. */
  readonly endsAtMs: number;
  readonly isCutOff: boolean;
  /** When the wood really brought its mark to the blade; null where it never did. */
  readonly arrivedAtMs: number | null;
}

const STEP_MS = 10;
const COUNT_EVERY_MS = 20;
/** A wheel on wood slips by up to half a percent either way (assumption). */
const SLIP = 0.005;
/** A person presses within a tenth of a second (standard deviation, assumption). */
const PRESS_SD_MS = 100;
/** A run that is not over by then never will be. */
const LONGEST_MS = 30 * 60_000;
/** The first bevel is called before the wood comes: time to turn to it. */
const LEAD_IN_MS = 12_000;

/** Runs to the last mark. Throws if the run does not come to its end. */
export function simulateRun(simulation: Simulation): Simulated {
  const world = open(simulation);
  while (world.state.phase !== 'finished' && world.atMs < LONGEST_MS) pass(world, simulation);
  if (world.state.phase !== 'finished')
    throw new Error(`a simulated run stood at ${world.wood.positionMm} mm after ${LONGEST_MS} ms`);
  return report(world, simulation);
}

interface World {
  atMs: number;
  state: RunState;
  wood: FeedModel;
  hand: Hand;
  readonly draw: Draws;
  readonly slip: number;
  /** How late (or early) this person's foot is at each station. */
  readonly footMs: readonly number[];
  readonly arrivedMs: (number | null)[];
  told: number;
  stopLeftMs: number;
  stopsDone: number;
  said: Call[];
  cutOffMs: Map<string, number>;
  missed: { mark: number; reason: string }[];
  squares: number;
  lengthMm: number;
  worstDeg: number;
  worstGapMm: number;
  shown: { deg: number; degPerMs: number }[];
}

function open({ setup, mPerMin, seed, source }: Simulation): World {
  const draw = draws(seed);
  const world: World = {
    atMs: 0,
    state: initialState(setup),
    wood: standingFeed({ mPerMin, seed }),
    hand: restingHand(),
    draw,
    slip: 1 + SLIP * (2 * draw.even() - 1),
    footMs: setup.stations.map(() => PRESS_SD_MS * draw.normal()),
    arrivedMs: setup.stations.map(() => null),
    told: 0,
    stopLeftMs: 0,
    stopsDone: 0,
    said: [],
    cutOffMs: new Map(),
    missed: [],
    squares: 0,
    lengthMm: 0,
    worstDeg: 0,
    worstGapMm: 0,
    shown: [],
  };
  if (source === 'shop') world.state = { ...world.state, phase: 'feeding' };
  return world;
}

function pass(world: World, simulation: Simulation): void {
  world.atMs += STEP_MS;
  if (world.atMs === STEP_MS) begin(world, simulation);
  stopAndGo(world, simulation);
  moveWood(world, simulation);
  tellEngine(world, simulation);
  wake(world, simulation);
  moveHand(world, simulation);
}

function begin(world: World, simulation: Simulation): void {
  if (simulation.source === 'shop') shopCalls(world, simulation, 0);
  else take(world, simulation, { kind: 'started', atMs: world.atMs, withoutSound: false });
}

function stopAndGo(world: World, simulation: Simulation): void {
  const next = simulation.stops?.[world.stopsDone];
  if (world.stopLeftMs > 0) {
    world.stopLeftMs -= STEP_MS;
    if (world.stopLeftMs <= 0) {
      world.stopsDone += 1;
      if (simulation.source !== 'shop') take(world, simulation, { kind: 'resumed', atMs: world.atMs });
    }
  } else if (next !== undefined && world.wood.positionMm >= next.atMm && world.state.phase === 'feeding') {
    world.stopLeftMs = next.forMs;
    if (simulation.source !== 'shop') take(world, simulation, { kind: 'pressed', gesture: 'stop', atMs: world.atMs });
    else world.hand = hold(world.hand);
  }
}

function moveWood(world: World, { setup, sidingMm }: Simulation): void {
  const isFed = world.atMs > LEAD_IN_MS && world.stopLeftMs <= 0 && world.state.phase === 'feeding';
  const before = world.wood.positionMm;
  world.wood = stepFeed(world.wood, STEP_MS, isFed);
  const wayMm = world.wood.positionMm - before;
  for (const [index, station] of setup.stations.entries())
    if (world.atMs > LEAD_IN_MS && world.arrivedMs[index] === null && world.wood.positionMm >= station.positionMm)
      world.arrivedMs[index] = world.atMs;
  if (wayMm <= 0) return;
  const wantedDeg = tiltAt(world.state, world.wood.positionMm);
  const errorDeg = world.hand.tiltDeg - wantedDeg;
  world.squares += errorDeg ** 2 * wayMm;
  world.lengthMm += wayMm;
  world.worstDeg = Math.max(world.worstDeg, Math.abs(errorDeg));
  world.worstGapMm = Math.max(world.worstGapMm, sidingMm * Math.abs(tanDeg(world.hand.tiltDeg) - tanDeg(wantedDeg)));
}

function tellEngine(world: World, simulation: Simulation): void {
  if (world.atMs <= LEAD_IN_MS) return;
  if (simulation.source === 'travel') tellTravel(world, simulation);
  else tellMarks(world, simulation);
}

function tellTravel(world: World, simulation: Simulation): void {
  if (world.atMs % COUNT_EVERY_MS !== 0) return;
  const mm = Math.round((world.wood.positionMm * world.slip + 0.05 * world.draw.normal()) * 10) / 10;
  take(world, simulation, { kind: 'moved', atMs: world.atMs, mm });
}

function tellMarks(world: World, simulation: Simulation): void {
  const { source, setup } = simulation;
  const { atMs, told: index } = world;
  const arrivedMs = world.arrivedMs[index] ?? null;
  if (arrivedMs === null || world.stopLeftMs > 0) return;
  if (source === 'press' && atMs < arrivedMs + (world.footMs[index] ?? 0)) return;
  world.told += 1;
  const mark = setup.stations[index]?.mark ?? 0;
  if (source === 'shop') shopCalls(world, simulation, index);
  else if (source === 'scan') take(world, simulation, { kind: 'scanned', mark, offsetMm: 0, atMs });
  else take(world, simulation, { kind: 'pressed', gesture: 'next', atMs });
}

/** The plain routine of the shop: the number is called as its mark reaches the blade, and turned to then. */
function shopCalls(world: World, { setup, hand }: Simulation, index: number): void {
  const station = setup.stations[index];
  if (station === undefined) return;
  const durationMs = setup.durationsMs[setup.callTexts[index] ?? ''] ?? 0;
  world.hand = hear(
    world.hand,
    { deg: station.callDeg, overMs: world.atMs + durationMs, evenMs: null },
    hand,
    world.draw,
  );
  if (index === setup.stations.length - 1) world.state = { ...world.state, phase: 'finished' };
}

function wake(world: World, simulation: Simulation): void {
  for (let turns = 0; world.state.wakeAtMs !== null && world.state.wakeAtMs <= world.atMs && turns < 5; turns += 1)
    take(world, simulation, { kind: 'woken', atMs: world.atMs });
}

function take(world: World, simulation: Simulation, event: RunEvent): void {
  const [next, effects] = step(world.state, event);
  world.state = next;
  for (const effect of effects) answer(world, simulation, effect);
}

function answer(world: World, simulation: Simulation, effect: RunEffect): void {
  if (effect.kind === 'cut-off') world.cutOffMs.set(effect.id, world.atMs);
  if (effect.kind === 'missed') world.missed.push({ mark: effect.mark, reason: effect.reason });
  if (effect.kind !== 'say') return;
  world.said.push(effect.call);
  const { deg, startsAtMs, durationMs } = effect.call;
  if (deg === undefined) {
    if (world.state.phase !== 'feeding') world.hand = hold(world.hand);
    return;
  }
  if (simulation.setup.routine === 'following' && world.state.reckoning?.by === 'travel') return;
  const overMs = startsAtMs + durationMs;
  world.hand = hear(world.hand, { deg, overMs, evenMs: evenMs(world, simulation) }, simulation.hand, world.draw);
}

/** Turning evenly, the hand takes as long as the mark before took: it has the rhythm in its ear. */
function evenMs(world: World, { setup, mPerMin }: Simulation): number | null {
  if (setup.routine !== 'even turning' || world.state.reckoning?.by !== 'travel') return null;
  const [earlier, later] = world.hand.begunMs;
  const to = setup.stations[world.state.turningTo];
  const from = setup.stations[world.state.turningTo - 1];
  if (to === undefined || from === undefined) return null;
  const plannedMs = ((to.positionMm - from.positionMm) * 60) / mPerMin;
  if (earlier === undefined || later === undefined) return plannedMs;
  return Math.min(1.5 * plannedMs, Math.max(0.5 * plannedMs, later - earlier));
}

function moveHand(world: World, simulation: Simulation): void {
  const { hand: traits, setup } = simulation;
  const isFollowing = setup.routine === 'following' && world.state.reckoning?.by === 'travel';
  if (!isFollowing) {
    world.hand = turnOn(world.hand, world.atMs, STEP_MS, traits);
    return;
  }
  const guide = guideAt(world.state, world.atMs);
  world.shown.push({ deg: guide.targetDeg ?? 0, degPerMs: (guide.rateDegPerS ?? 0) / 1000 });
  const delay = Math.round(traits.followDelayMs / STEP_MS);
  const seen = world.shown.at(-1 - delay) ?? world.shown[0];
  if (seen === undefined || world.state.phase !== 'feeding') return;
  const readDeg =
    simulation.seesTilt === 'sensor'
      ? world.hand.tiltDeg
      : Math.round(world.hand.tiltDeg / traits.readoutDeg) * traits.readoutDeg;
  // The curve to come is in view, so the turning goes with the wood of now; what is put right is what was seen.
  const shown = { deg: seen.deg, degPerMs: (guide.rateDegPerS ?? 0) / 1000, readDeg };
  world.hand = followOn(world.hand, shown, STEP_MS, traits);
}

function report(world: World, { setup }: Simulation): Simulated {
  const calls = world.said.map((call): SimulatedCall => {
    const index = setup.stations.findIndex(({ mark }) => mark === call.mark);
    const cutMs = world.cutOffMs.get(call.id);
    const overMs = call.startsAtMs + call.durationMs;
    return {
      mark: call.mark ?? null,
      deg: call.deg ?? null,
      startsAtMs: call.startsAtMs,
      endsAtMs: Math.min(overMs, cutMs ?? overMs),
      isCutOff: cutMs !== undefined && cutMs < overMs,
      arrivedAtMs: world.arrivedMs[index] ?? null,
    };
  });
  return {
    rmsDeg: Math.sqrt(world.squares / Math.max(world.lengthMm, 1e-9)),
    worstDeg: world.worstDeg,
    worstGapMm: world.worstGapMm,
    durationS: (world.atMs - LEAD_IN_MS) / 1000,
    calls,
    missed: world.missed,
  };
}
