/**
 * A whole run with a modelled feed and a modelled tilt hand, faster than real time: the very engine that runs at the saw, with
 * other sources. The same seed gives the same run.
 */

import { forget, hold } from '../hand/hand.ts';
import { lastRow, rowAt } from '../rowAt.ts';
import type { RunEffect, RunEvent } from '../run/engine/events.ts';
import { tiltAt } from '../run/engine/profile.ts';
import { step } from '../run/step.ts';
import { listen, listenToRun, moveHand } from './handAtWork.ts';
import { passedAt, type Span } from './modelledSources.ts';
import { type Shop, shopCall } from './shop.ts';
import type { Simulated, SimulatedCall, Simulation } from './simulation.ts';
import { decide, moveOn, placeMm } from './wood.ts';
import { openWorld, STEP_MS, type World } from './world.ts';

/** A run that is not over by then never will be. */
const LONGEST_MS = 60 * 60_000;
/** Behind the last mark the sawyer ends a run that has not ended itself. */
const BEHIND_MM = 60;
/** The first mark lies at the blade when the feed begins: it comes there with the first movement. */
const JUST_BEFORE_MM = -1e-9;
/** No more wakings are wanted in one step of the world, unless the engine asks for the same moment over and over. */
const MOST_WAKES = 20;

/** Runs to the last mark. Throws if the run does not come to its end, or if the engine wants to be woken without end. */
export function simulateRun(simulation: Simulation): Simulated {
  const world = openWorld(simulation);
  if (world.shop === null) take(world, { kind: 'started', atMs: 0, withoutSound: false });
  else callInShop(world, 0, 0);
  while (!world.isOver && world.atMs < LONGEST_MS) pass(world);
  if (!world.isOver) throw new Error(`a simulated run stood at ${placeMm(world.wood)} mm after ${LONGEST_MS} ms`);
  return report(world);
}

function pass(world: World): void {
  world.pathMm.push(placeMm(world.wood));
  if (world.atMs >= world.leadInMs) feed(world);
  if (!world.isOver) wakeUntil(world, world.atMs + STEP_MS);
  moveHand(world);
  world.atMs += STEP_MS;
}

function feed(world: World): void {
  const fromMs = world.atMs;
  const fromMm = world.next === 0 ? JUST_BEFORE_MM : placeMm(world.wood);
  sawyer(world);
  world.wood = moveOn(world.wood, fromMs, STEP_MS);
  const span: Span = { fromMs, toMs: fromMs + STEP_MS, fromMm, toMm: placeMm(world.wood) };
  measure(world, span.toMm);
  arrive(world, span);
  if (world.shop === null) tellRun(world, span);
  else tellShop(world, world.shop, span);
}

function sawyer(world: World): void {
  const { simulation, state, atMs, shop } = world;
  const phase = shop === null ? state.phase : shop.isStopped ? 'stopped' : 'feeding';
  const { wood, deed } = decide(world.wood, simulation.stops ?? [], phase, atMs);
  world.wood = wood;
  if (deed === null) return;
  if (shop === null) {
    take(world, deed === 'says stop' ? { kind: 'pressed', gesture: 'stop', atMs } : { kind: 'resumed', atMs });
    return;
  }
  shop.isStopped = deed === 'says stop';
  if (shop.isStopped) world.hand = hold(world.hand);
  else callInShop(world, Math.max(0, shop.next - 1), atMs);
}

/** What is sawn for the first time is measured. */
function measure(world: World, toMm: number): void {
  const endMm = Math.min(toMm, lastRow(world.simulation.setup.stations).positionMm);
  const wayMm = endMm - world.sawnMm;
  if (wayMm <= 0) return;
  world.sawnMm = endMm;
  world.meter.sawn(wayMm, world.hand.wheel.tiltDeg, tiltAt(world.state.setup, endMm));
}

function arrive(world: World, span: Span): void {
  const { stations } = world.simulation.setup;
  for (let station = stations[world.next]; station !== undefined; station = stations[world.next]) {
    const atMs = passedAt(span, station.positionMm);
    if (atMs === null) return;
    world.arrivals[world.next] = { atMs, errorDeg: world.hand.wheel.tiltDeg - station.tiltDeg };
    world.next += 1;
  }
}

function tellShop(world: World, shop: Shop, span: Span): void {
  const atMs = passedAt(span, shop.places[shop.next] ?? Number.POSITIVE_INFINITY);
  if (atMs !== null) {
    callInShop(world, shop.next, atMs);
    shop.next += 1;
  }
  world.isOver = world.next === world.simulation.setup.stations.length;
}

function callInShop(world: World, index: number, atMs: number): void {
  const call = shopCall(world.simulation.setup, index, atMs);
  if (call === null) return;
  world.said.push(call);
  listen(world, call, null);
}

function tellRun(world: World, span: Span): void {
  const now = { tiltDeg: world.hand.wheel.tiltDeg, isFeeding: world.state.phase === 'feeding' };
  for (const event of world.sources(span, now)) {
    if (world.isOver) return;
    wakeUntil(world, event.atMs);
    take(world, event);
  }
  const endMm = lastRow(world.simulation.setup.stations).positionMm;
  if (!world.isOver && span.toMm > endMm + BEHIND_MM) take(world, { kind: 'ended', atMs: span.toMs });
}

/** Wakes the engine at the very moments that it asked for. */
function wakeUntil(world: World, toMs: number): void {
  for (let wakes = 0; !world.isOver; wakes += 1) {
    const { wakeAtMs } = world.state;
    if (wakeAtMs === null || wakeAtMs >= toMs) return;
    if (wakes === MOST_WAKES) throw new Error(`the engine wants to be woken at ${wakeAtMs} ms over and over`);
    take(world, { kind: 'woken', atMs: wakeAtMs });
  }
}

function take(world: World, event: RunEvent): void {
  const [next, effects] = step(world.state, event);
  world.state = next;
  for (const effect of effects) answer(world, effect, event.atMs);
  if (next.phase === 'finished') world.isOver = true;
}

function answer(world: World, effect: RunEffect, atMs: number): void {
  if (effect.kind === 'tell') world.told.push({ code: effect.notice.code, atMs });
  if (effect.kind === 'missed') world.missed.push({ mark: effect.mark, reason: effect.reason });
  if (effect.kind === 'cut-off') {
    world.cutOffMs.set(effect.id, atMs);
    world.hand = forget(world.hand, effect.id, atMs);
  }
  if (effect.kind !== 'say') return;
  world.said.push(effect.call);
  if (effect.call.deg !== undefined) listenToRun(world, effect.call);
  else if (world.state.phase !== 'feeding') world.hand = hold(world.hand);
}

function report(world: World): Simulated {
  const { meter, said, missed, told, shop, state, atMs, leadInMs } = world;
  const { stations } = world.simulation.setup;
  const arrivals = world.arrivals.map((arrival, index) => ({ mark: rowAt(stations, index).mark, ...arrival }));
  const arrivedMs = new Map(arrivals.map((arrival) => [arrival.mark, arrival.atMs]));
  const calls = said.map((call): SimulatedCall => {
    const overMs = call.startsAtMs + call.durationMs;
    const endsAtMs = Math.min(overMs, world.cutOffMs.get(call.id) ?? overMs);
    const arrivedAtMs = (call.mark === undefined ? null : arrivedMs.get(call.mark)) ?? null;
    return {
      mark: call.mark ?? null,
      deg: call.deg ?? null,
      text: call.text,
      startsAtMs: call.startsAtMs,
      endsAtMs,
      startsAtMm: woodAt(world, call.startsAtMs),
      endsAtMm: woodAt(world, endsAtMs),
      isCutOff: endsAtMs < overMs,
      arrivedAtMs,
      marginMs: arrivedAtMs === null ? null : arrivedAtMs - endsAtMs,
    };
  });
  return {
    rmsDeg: meter.rmsDeg,
    worstDeg: meter.worstDeg,
    worstGapMm: meter.worstGapMm,
    durationS: (atMs - leadInMs) / 1000,
    calls,
    missed,
    told,
    arrivals,
    isFinished: shop !== null || state.reached === stations.length,
  };
}

/** Where the wood was; after the end of the run where it was then. */
function woodAt({ pathMm, wood }: World, atMs: number): number {
  const index = Math.floor(atMs / STEP_MS);
  const fromMm = pathMm[index] ?? placeMm(wood);
  const toMm = pathMm[index + 1] ?? placeMm(wood);
  return fromMm + (toMm - fromMm) * (atMs / STEP_MS - index);
}
