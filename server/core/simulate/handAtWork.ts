/** The tilt hand in a simulated run: what is said to it, what it sees, and how it turns. */
import { followDisplay } from '../hand/followDisplay.ts';
import { hear, type Seen, turnOn } from '../hand/hand.ts';
import { routineNow } from '../run/call/routineNow.ts';
import type { Call } from '../run/engine/events.ts';
import { tiltAt } from '../run/engine/profile.ts';
import { positionAt } from '../run/place/position.ts';
import { type ReadoutTable, shownDeg, trueTiltDeg } from '../saw/readout.ts';
import { expect } from './expectation.ts';
import { STEP_MS, type World } from './world.ts';

/** The hand is quicker than the wood. */
const HAND_MS = 20;

/** With a count of travel the display goes with the wood; without one there are only the numbers, whatever the routine. */
const isFollowing = ({ state }: World): boolean => routineNow(state).isFollowed;

/** A call of the run's is begun: the hand hears it, unless it follows the display, where the voice only confirms. */
export function listenToRun(world: World, call: Call): void {
  if (isFollowing(world)) return;
  const { setup, hand } = world.simulation;
  const { evenMs, expectation } = expect(world.expectation, {
    stations: setup.stations,
    index: world.state.turningTo,
    beginsAtMs: call.startsAtMs + call.durationMs + hand.reactionMs,
    feedBeganAtMs: world.leadInMs,
    tiltDeg: world.hand.wheel.tiltDeg,
  });
  world.expectation = expectation;
  listen(world, call, routineNow(world.state).isTurnedEvenly ? evenMs : null);
}

/** Turns to a number that is called; the first one with time to check it. */
export function listen(world: World, call: Call, evenMs: number | null): void {
  const { hand: traits, readoutTable } = world.simulation;
  const heard = {
    id: call.id,
    deg: call.deg ?? 0,
    overMs: call.startsAtMs + call.durationMs,
    evenMs,
    isChecked: world.next === 0,
    trueTiltDeg: (shown: number) => trueTiltDeg(shown, readoutTable),
  };
  world.hand = hear(world.hand, heard, traits, world.draw);
}

/** One step of the world, in its smaller steps. */
export function moveHand(world: World): void {
  const { hand: traits } = world.simulation;
  const { atMs: fromMs, draw, state } = world;
  const follows = isFollowing(world);
  if (follows && state.phase !== 'feeding') return;
  for (let atMs = fromMs; atMs < fromMs + STEP_MS; atMs += HAND_MS)
    world.hand = follows
      ? followDisplay(world.hand, shown(world, atMs), HAND_MS, traits, draw)
      : turnOn(world.hand, atMs, HAND_MS, traits);
}

/** What the display shows of the tilt wanted and the tilt had; on a plain readout both to its step, for figures are compared. */
function shown({ state, hand, simulation }: World, atMs: number): Seen {
  const { readoutTable, seesTilt } = simulation;
  const { readoutDeg, follows } = simulation.hand;
  const { reckoning, tilt } = state;
  const aheadMm = (reckoning?.speedMmPerMs ?? 0) * follows.lookAheadMs;
  const wantedDeg = tiltAt(state.setup, (reckoning === null ? 0 : positionAt(reckoning, atMs)) + aheadMm);
  const hadDeg = hand.wheel.tiltDeg;
  if (seesTilt === 'sensor') return { atMs, aheadDeg: wantedDeg, hadDeg: tilt?.deg ?? hadDeg };
  return {
    atMs,
    aheadDeg: figure(wantedDeg, readoutTable, readoutDeg),
    hadDeg: figure(hadDeg, readoutTable, readoutDeg),
  };
}

const figure = (deg: number, table: ReadoutTable, stepDeg: number): number => toStep(shownDeg(deg, table), stepDeg);
const toStep = (deg: number, stepDeg: number): number => (stepDeg > 0 ? Math.round(deg / stepDeg) * stepDeg : deg);
