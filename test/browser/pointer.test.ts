/** The pointer against a truth that it is told of late, in any order and with gaps: see client/kit/plank/woodMotion.ts. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { FARTHEST_MM, NO_NEWS_MS, WoodMotion } from '../../client/kit/plank/woodMotion.ts';
import { Pointer } from '../../client/wheel/pointer.ts';
import { tiltAt } from '../../server/core/run/engine/profile.ts';
import type { RunSetup } from '../../server/core/run/engine/state.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import type { Guide } from '../../server/core/run/view/guide.ts';
import { shownDeg } from '../../server/core/saw/readout.ts';
import { type FeedModel, standingFeed, stepFeed } from '../../server/core/simulate/feedModel.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { smallSetup } from '../kit/runSetup.ts';

/** What the display may be off, and how fast a tilt may change for that: 12 degrees a metre, as at a hard turn of the bilge. */
const WITHIN_DEG = 0.1;
const STEEPEST_DEG_PER_MM = 0.012;
const FASTEST_M_PER_MIN = 6;
const AFTER_A_STOP_MS = 300;
const JITTER_MS = 100;
const GUIDE_EVERY_MS = 1000 / 30;
/** A device's clock is compared with the server's to so much at worst (half of a good round trip). */
const CLOCK_MS = 8;

interface Stop {
  readonly atMs: number;
  readonly lastsMs: number;
  /** At once, as no hand can; otherwise as a hand lets go. */
  readonly isAbrupt: boolean;
}
interface Case {
  readonly mPerMin: number;
  readonly seed: number;
  readonly stops: readonly Stop[];
  readonly clockMs: number;
  readonly delays: readonly number[];
  readonly frameMs: number;
}

const cases = fc.record({
  mPerMin: fc.double({ min: 0.5, max: FASTEST_M_PER_MIN, noNaN: true }),
  seed: fc.integer({ min: 0, max: 1e6 }),
  stops: fc.array(
    fc.record({
      atMs: fc.integer({ min: 1500, max: 7000 }),
      lastsMs: fc.integer({ min: 200, max: 1500 }),
      isAbrupt: fc.boolean(),
    }),
    { maxLength: 2 },
  ),
  clockMs: fc.double({ min: -CLOCK_MS, max: CLOCK_MS, noNaN: true }),
  /** Over and over; one in a hundred is lost. */
  delays: fc.array(fc.double({ min: 0, max: JITTER_MS, noNaN: true }), { minLength: 40, maxLength: 97 }),
  frameMs: fc.constantFrom(1000 / 60, 1000 / 144, 1000 / 30),
});

/** Wood in steps of a millisecond. */
function truthOf({ mPerMin, seed, stops }: Case, lastMs: number): readonly { mm: number; mmPerMs: number }[] {
  let wood: FeedModel = standingFeed({ mPerMin, seed });
  const places = [];
  for (let ms = 0; ms <= lastMs; ms += 1) {
    const stop = stops.find(({ atMs, lastsMs }) => ms >= atMs && ms < atMs + lastsMs);
    const before = wood.positionMm;
    if (stop?.isAbrupt === true) wood = { ...wood, hand: 0 };
    wood = stepFeed(wood, 1, stop === undefined);
    places.push({ mm: before, mmPerMs: wood.positionMm - before });
  }
  return places;
}

const guideOf = (atMs: number, positionMm: number, speedMmPerMs: number, more: Partial<Guide> = {}): Guide => ({
  ...{ atMs, calledDeg: null, calledMark: null },
  state: 'feeding',
  targetDeg: 0,
  isFollowed: true,
  rateDegPerS: 0,
  mark: 1,
  nextMark: 2,
  nextDeg: 0,
  etaMs: 0,
  positionMm,
  speedMmPerS: speedMmPerMs * 1000,
  uncertaintyMm: 0.1,
  trust: 'known',
  safeMPerMin: null,
  easeFeed: false,
  ...more,
});

/** Server's time begins here, the page's at 0. */
const SERVER_MS = 1_700_000_000_000;

interface Seen {
  readonly ms: number;
  readonly errorMm: number;
  readonly shownMm: number;
  readonly positionMm: number;
  readonly isLive: boolean;
}

/** Plays a case on the display, frame by frame. */
function play(each: Case, lastMs = 8500): readonly Seen[] {
  const truth = truthOf(each, lastMs);
  const motion = new WoodMotion(smallSetup().stations);
  const arriving: { readonly atMs: number; readonly guide: Guide }[] = [];
  for (let count = 0; count * GUIDE_EVERY_MS < lastMs; count += 1) {
    const ms = Math.round(count * GUIDE_EVERY_MS);
    const place = truth[ms];
    const isLost = count % 100 === each.seed % 100;
    if (place === undefined || isLost) continue;
    arriving.push({
      atMs: ms + (each.delays[count % each.delays.length] ?? 0),
      guide: guideOf(SERVER_MS + ms, place.mm, place.mmPerMs),
    });
  }
  arriving.sort((a, b) => a.atMs - b.atMs);
  const seen: Seen[] = [];
  for (let ms = 0; ms < lastMs; ms += each.frameMs) {
    while ((arriving[0]?.atMs ?? Number.POSITIVE_INFINITY) <= ms) {
      const guide = arriving.shift()?.guide;
      if (guide !== undefined) motion.told(guide);
    }
    const shown = motion.frame(ms, SERVER_MS + ms + each.clockMs);
    const now = truth[Math.round(ms)]?.mm ?? 0;
    if (ms > 300)
      seen.push({
        ms,
        errorMm: shown.positionMm - now,
        shownMm: shown.positionMm,
        positionMm: now,
        isLive: shown.isLive,
      });
  }
  return seen;
}

const isAfterAStop = ({ stops }: Case, ms: number): boolean =>
  stops.some(({ atMs, isAbrupt }) => isAbrupt && ms >= atMs && ms < atMs + AFTER_A_STOP_MS);

describe('the motion of both boards', () => {
  it('stays within a tenth of a degree at 12 degrees a metre and up to 6 m/min, but for 0.3 s after an abrupt stop', () => {
    fc.assert(
      fc.property(cases, (each) => {
        for (const { ms, errorMm } of play(each)) {
          const offDeg = Math.abs(errorMm) * STEEPEST_DEG_PER_MM;
          // Unseen, abruptly stopped wood is carried on for the jitter, a guide or two, and the clocks: 0.22 degrees at most.
          const mm = (each.mPerMin / 60) * (JITTER_MS + 2 * GUIDE_EVERY_MS + CLOCK_MS);
          if (isAfterAStop(each, ms)) expect(Math.abs(errorMm)).toBeLessThan(mm * 1.05 + 0.2);
          else expect(offDeg, `at ${ms} ms`).toBeLessThan(WITHIN_DEG);
        }
      }),
      { numRuns: 80 },
    );
  });

  it('goes smoothly: from frame to frame no farther than the feed goes, and what an overrun takes back in small steps', () => {
    fc.assert(
      fc.property(cases, (each) => {
        const seen = play(each);
        const feedMm = (each.mPerMin / 60) * 1.05 * each.frameMs;
        for (const [index, { shownMm }] of seen.entries()) {
          const stepMm = shownMm - (seen[index - 1]?.shownMm ?? shownMm);
          const overrunMm = (each.mPerMin / 60) * 1.05 * (JITTER_MS + 3 * GUIDE_EVERY_MS);
          const most = feedMm + overrunMm * (1 - Math.exp(-each.frameMs / 60));
          expect(stepMm).toBeLessThan(most + 0.1);
          expect(stepMm).toBeGreaterThan(-most - 0.1);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('in a steady feed no frame differs from the next by more than a fifth of what the wood itself goes', () => {
    fc.assert(
      fc.property(cases, (drawn) => {
        const each = { ...drawn, stops: [] };
        const seen = play(each).filter(({ ms }) => ms > 1000);
        for (const [index, now] of seen.entries()) {
          const before = seen[index - 1];
          if (before === undefined) continue;
          const wood = now.positionMm - before.positionMm;
          expect(Math.abs(now.shownMm - before.shownMm - wood)).toBeLessThan(
            0.2 * (each.mPerMin / 60) * each.frameMs + 0.12,
          );
        }
      }),
      { numRuns: 40 },
    );
  });

  it('shows the same whatever order the guides came in, and however often', () => {
    const order = fc.shuffledSubarray([0, 1, 2, 3, 4, 5], { minLength: 6 });
    fc.assert(
      fc.property(order, fc.array(fc.integer({ min: 0, max: 5 }), { maxLength: 6 }), (first, again) => {
        const guides = [0, 1, 2, 3, 4, 5].map((n) => guideOf(SERVER_MS + 33 * n, 5 * n, 0.1 + 0.01 * n));
        const [mixed, straight] = [first.concat(again), [0, 1, 2, 3, 4, 5]].map((indices) => {
          const motion = new WoodMotion([]);
          for (const index of indices) motion.told(guides[index] ?? guideOf(0, 0, 0));
          return motion.frame(0, SERVER_MS + 200).positionMm;
        });
        expect(mixed).toBe(straight);
      }),
    );
  });

  it('stands and says so when there is no news, and goes on when there is', () => {
    const motion = new WoodMotion([]);
    motion.told(guideOf(SERVER_MS, 100, 0.05));
    const at = (ms: number) => motion.frame(ms, SERVER_MS + ms);
    for (let ms = 0; ms <= NO_NEWS_MS; ms += 10) expect(at(ms).isLive).toBe(true);
    const stood = at(NO_NEWS_MS + 10);
    expect(stood).toMatchObject({ isLive: false });
    expect(stood.positionMm).toBeLessThanOrEqual(100 + 0.05 * NO_NEWS_MS + 1e-9);
    expect(at(5000)).toEqual(stood);
    motion.told(guideOf(SERVER_MS + 5000, 340, 0.05));
    expect(at(5016).isLive).toBe(true);
    // Far off: it leaps to where the bound allows, and the rest fades.
    expect(Math.abs(at(5016).positionMm - 340.8)).toBeLessThanOrEqual(FARTHEST_MM);
    expect(Math.abs(at(5400).positionMm - 360)).toBeLessThan(0.1);
  });

  it('stands with a stopped run however long nothing is told, and that is no lack of news', () => {
    const motion = new WoodMotion([]);
    motion.told(guideOf(SERVER_MS, 100, 0.05, { state: 'stopped' }));
    expect(motion.frame(0, SERVER_MS)).toEqual({ positionMm: 100, isLive: true });
    expect(motion.frame(9000, SERVER_MS + 9000)).toEqual({ positionMm: 100, isLive: true });
  });

  it('lets a guess between presses come no farther than the next mark', () => {
    const { stations } = smallSetup();
    const motion = new WoodMotion(stations);
    motion.told(guideOf(SERVER_MS, 149, 0.05, { isFollowed: false }));
    expect(motion.frame(0, SERVER_MS + 300).positionMm).toBe(150);
  });

  it('begins anew with a server that came back, whatever its clock says', () => {
    const motion = new WoodMotion([]);
    motion.told(guideOf(SERVER_MS, 100, 0));
    motion.forget();
    motion.told(guideOf(SERVER_MS - 60_000, 200, 0));
    expect(motion.frame(0, SERVER_MS - 60_000).positionMm).toBe(200);
  });
});

describe('the tilt that is pointed to', () => {
  let demo: RunSetup;
  let table: readonly (readonly [number, number])[];
  beforeAll(async () => {
    const plan = await demoPlan();
    demo = makeSetup(plan, 'pair', {}, 'following');
    table = plan.saw.readoutTable;
  });

  it('is within a tenth of a degree of the demo frame`s and of random profiles` up to 12 degrees a metre', () => {
    const profile = fc
      .array(fc.double({ min: -STEEPEST_DEG_PER_MM, max: STEEPEST_DEG_PER_MM, noNaN: true }), {
        minLength: 8,
        maxLength: 16,
      })
      .map((slopes) => {
        let deg = 10;
        const tiltsDeg = slopes.map((slope) => {
          deg += slope * 70;
          return deg;
        });
        return smallSetup({ profile: { positionsMm: tiltsDeg.map((_, index) => index * 70), tiltsDeg } });
      });
    fc.assert(
      fc.property(fc.oneof(fc.constant(null), profile), cases, (drawn, each) => {
        const setup = drawn ?? demo;
        const pointer = new Pointer(setup, table);
        for (const { ms, shownMm, positionMm } of play(each)) {
          if (isAfterAStop(each, ms)) continue;
          const { tiltDeg } = pointer.frame({ positionMm: shownMm, isLive: true }, ms);
          expect(Math.abs(tiltDeg - shownDeg(tiltAt(setup, positionMm), table))).toBeLessThan(WITHIN_DEG);
        }
      }),
      { numRuns: 50 },
    );
  });

  it('tells the error of one moment, in the readout`s degrees, and none that is old or that nobody measured', () => {
    const pointer = new Pointer(demo, table);
    const at = (ms: number) => pointer.frame({ positionMm: 300, isLive: true }, ms).errorDeg;
    expect(at(0)).toBeNull();
    pointer.told({ atMs: 1, targetDeg: 10, tiltDeg: 10.4, errorDeg: 0.4 }, 10);
    const first = shownDeg(10.4, table) - shownDeg(10, table);
    expect(at(16)).toBeCloseTo(first, 9);
    pointer.told({ atMs: 40, targetDeg: 10, tiltDeg: 10, errorDeg: 0 }, 40);
    pointer.told({ atMs: 30, targetDeg: 10, tiltDeg: 13, errorDeg: 3 }, 45);
    const gliding = at(50) ?? Number.NaN;
    expect(gliding).toBeGreaterThan(0);
    expect(gliding).toBeLessThan(first);
    expect(at(500)).toBeCloseTo(0, 3);
    expect(at(541)).toBeNull();
    pointer.told({ atMs: 600, targetDeg: 10, tiltDeg: 10 }, 600);
    expect(at(610)).toBeNull();
  });
});
