/** All that a simulated run is made of while it goes on. It changes in place: thousands of runs are gone through in seconds. */

import { type Hand, restingHand } from '../hand/hand.ts';
import { type Draws, draws } from '../numeric/draws.ts';
import { rowAt } from '../rowAt.ts';
import type { Call, NoticeCode } from '../run/engine/events.ts';
import { initialState } from '../run/engine/initialState.ts';
import type { RunState } from '../run/engine/state.ts';
import { turnedDeg } from '../saw/handwheel.ts';
import { mPerMinToMmPerMs } from '../units.ts';
import { type ErrorMeter, errorMeter } from './errorMeter.ts';
import { type Expectation, newExpectation } from './expectation.ts';
import { openSources, seenAtMm } from './modelledSources.ts';
import type { Shop } from './shop.ts';
import { type Simulation, USUAL_FAULTS } from './simulation.ts';
import { standingWood, type Wood } from './wood.ts';

/** The wood goes in steps of this; what the engine is told and asks for has its exact time. */
export const STEP_MS = 40;
/** Beside the turning itself the first bevel is heard, turned to and checked before the wood comes. */
const CHECKED_MS = 4000;

export interface World {
  readonly simulation: Simulation;
  readonly draw: Draws;
  readonly sources: ReturnType<typeof openSources>;
  /** The plain routine of the shop, in place of the engine. */
  readonly shop: Shop | null;
  readonly meter: ErrorMeter;
  readonly arrivals: { readonly atMs: number | null; readonly errorDeg: number | null }[];
  readonly said: Call[];
  readonly cutOffMs: Map<string, number>;
  readonly missed: { readonly mark: number; readonly reason: string }[];
  readonly told: { readonly code: NoticeCode; readonly atMs: number }[];
  /** Where the wood was at the beginning of each step, from the start. */
  readonly pathMm: number[];
  /** When the feed begins. */
  readonly leadInMs: number;
  atMs: number;
  state: RunState;
  wood: Wood;
  hand: Hand;
  /** As far as the stock is sawn. */
  sawnMm: number;
  /** The next station that the wood has not been at. */
  next: number;
  expectation: Expectation;
  isOver: boolean;
}

export function openWorld(simulation: Simulation): World {
  const { setup, mPerMin, seed, source, hand, sidingMm } = simulation;
  const draw = draws(seed);
  const faults = { ...USUAL_FAULTS, ...simulation.faults };
  const feedMmPerMs = mPerMinToMmPerMs(mPerMin);
  const firstDeg = turnedDeg(setup, 0, rowAt(setup.stations, 0).callDeg, 0);
  const places = source === 'shop' ? seenAtMm(setup.stations, faults, feedMmPerMs, draw) : null;
  return {
    simulation,
    draw,
    sources: openSources(simulation, faults, draw),
    shop: places === null ? null : { places, next: 0, isStopped: false },
    meter: errorMeter(sidingMm),
    arrivals: setup.stations.map(() => ({ atMs: null, errorDeg: null })),
    said: [],
    cutOffMs: new Map(),
    missed: [],
    told: [],
    pathMm: [],
    leadInMs: STEP_MS * Math.ceil((CHECKED_MS + firstDeg / hand.degPerMs) / STEP_MS),
    atMs: 0,
    state: initialState(setup),
    wood: standingWood(mPerMin, seed),
    hand: restingHand(),
    sawnMm: 0,
    next: 0,
    expectation: newExpectation(feedMmPerMs),
    isOver: false,
  };
}
