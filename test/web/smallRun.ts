/** A run in memory, small but real: pedals walk it from mark to mark, so that the web room can be tried without the others. */
import type { Plan } from '../../server/core/plan/plan.ts';
import type { PlannedMark } from '../../server/core/rip/plannedMark.ts';
import type { Call, Notice } from '../../server/core/run/engine/events.ts';
import type { Phase } from '../../server/core/run/engine/state.ts';
import type { RunPort } from '../../server/web/webPorts.ts';
import type { JournalEntry, JournalLine } from '../../server/wire/kept/journalLine.ts';
import { type FeedFrame, isFootFrame, type ReadingFrame } from '../../server/wire/message/feedFrame.ts';
import type { Answer, Command, Listener, RunView } from '../../server/wire/message/messages.ts';
import type { Follower } from '../../server/wire/message/runFollower.ts';

export interface SmallRun extends RunPort {
  /** What reached the run, for the tests to look at. */
  readonly heard: {
    readonly hearing: { page: string; listener: Listener | null }[];
    /** A sign of life, and how much had been told of what is heard before it. */
    readonly alive: { page: string; told: number }[];
    readonly unplayed: { page: string; id: string; reason: string }[];
    readonly closed: string[];
    readonly readings: { source: string; frame: FeedFrame }[];
  };
  notice(notice: Notice): void;
  cancel(id: string): void;
  call(call: Call): void;
  followers(): number;
  /** From now on the journal fails, as a full disk would make it. */
  breakDown(): void;
}

export function smallRun(run: string, marks = 4): SmallRun {
  const plan = smallPlan(marks);
  const lines: JournalLine[] = [];
  const followers = new Set<Follower>();
  const heard: SmallRun['heard'] = { hearing: [], alive: [], unplayed: [], closed: [], readings: [] };
  let state: Phase = 'ready';
  let mark = 0;
  let tiltDeg: number | null = null;
  let broken = false;
  let seenDeg: number | null = null;

  const keep = (entry: JournalEntry): Answer => {
    if (broken) throw new Error('the disk is full: /secret/place');
    lines.push({ ...entry, seq: lines.length + 1 });
    return { ok: true, seq: lines.length };
  };
  const refuse = (code: string): Answer => ({ ok: false, error: { code, message: `refused: ${code}` } });
  const view = (): RunView => ({
    run,
    title: plan.title,
    state,
    mode: 'pair',
    routine: 'mark by mark',
    feed: 'external',
    mark,
    marks,
    nextMark: mark < marks ? mark + 1 : null,
    nextDeg: plan.marks[mark]?.callDeg ?? null,
    positionMm: null,
    uncertaintyMm: null,
    madeAtMs: 0,
    seq: lines.length,
    notice: null,
    lost: null,
    takesPress: state === 'feeding',
    listeners: [],
    square: { wantedDeg: 0, seenDeg },
    isPlaceKnown: true,
    record: { isChecked: true, damage: null },
  });
  const tellView = (): void => {
    for (const follower of followers) follower.view?.(view());
  };
  const call = (given: Call): void => {
    for (const follower of followers) follower.call?.(given);
  };
  const say = (cause?: string): void => {
    const next = plan.marks[mark];
    if (next === undefined) return;
    call({
      id: `c${lines.length}`,
      to: 'tilt hand',
      text: `${next.callDeg} degrees`,
      mark: next.mark,
      deg: next.callDeg,
      startsAtMs: Date.now() - 3,
      durationMs: 800,
      ...(cause === undefined ? {} : { cause }),
    });
  };

  const press = (frame: Extract<ReadingFrame, { kind: 'pedal' }>): Answer => {
    if (state !== 'feeding') return refuse('not-feeding');
    const gesture = frame.gesture ?? 'next';
    const answer = keep({
      kind: 'pressed',
      gesture,
      atMs: Date.now(),
      ...(frame.id === undefined ? {} : { id: frame.id }),
    });
    if (gesture === 'stop') state = 'stopped';
    if (gesture === 'next') {
      mark += 1;
      if (mark === marks) state = 'finished';
    }
    tellView();
    say(frame.id);
    return answer;
  };

  return {
    run,
    plan,
    clips: [{ text: '5 degrees', url: '/api/clips/abc.wav', durationMs: 800, deg: 5 }],
    heard,
    view,
    guide: () => ({
      atMs: Date.now(),
      state,
      targetDeg: plan.marks[mark]?.sawnDeg ?? null,
      calledDeg: plan.marks[mark]?.callDeg ?? null,
      calledMark: plan.marks[mark]?.mark ?? null,
      isFollowed: false,
      rateDegPerS: null,
      mark,
      nextMark: mark < marks ? mark + 1 : null,
      nextDeg: plan.marks[mark]?.callDeg ?? null,
      etaMs: null,
      positionMm: null,
      speedMmPerS: null,
      uncertaintyMm: null,
      trust: null,
      safeMPerMin: null,
      easeFeed: false,
      ...(tiltDeg === null ? {} : { tiltDeg }),
    }),
    async squared(seen: number) {
      if (state !== 'ready') return refuse('already-started');
      const answer = keep({ kind: 'squared', atMs: Date.now(), seenDeg: seen });
      seenDeg = seen;
      tellView();
      return answer;
    },
    placed: async () => refuse('place-known'),
    async command(command: Command) {
      const atMs = Date.now();
      if (command === 'start' || command === 'start-without-sound') {
        if (state !== 'ready') return refuse('already-started');
        const answer = keep({ kind: 'started', withoutSound: command === 'start-without-sound', atMs });
        state = 'feeding';
        tellView();
        say();
        return answer;
      }
      if (state === 'ready') return refuse('not-started');
      const entry = (
        { 'stop-feed': 'stopped', resume: 'resumed', 'resume-without-sound': 'resumed', finish: 'ended' } as const
      )[command];
      const answer = keep(entry === 'stopped' ? { kind: entry, by: 'page', atMs } : { kind: entry, atMs });
      state = entry === 'stopped' ? 'stopped' : entry === 'resumed' ? 'feeding' : 'finished';
      tellView();
      return answer;
    },
    async reading(source, frame) {
      heard.readings.push({ source, frame });
      // Feet are for the live room.
      if (isFootFrame(frame)) return { ok: true, seq: lines.length };
      if (frame.kind === 'pedal') return press(frame);
      if (frame.kind === 'tilt') tiltDeg = frame.deg;
      const atMs = Date.now();
      if (frame.kind === 'mark')
        return frame.mark > marks
          ? refuse('no-such-mark')
          : keep({ kind: 'scanned', mark: frame.mark, offsetMm: 0, atMs });
      // Travel is kept in groups: its answer comes a little later than the next one's might.
      if (frame.kind === 'travel') await new Promise((done) => setTimeout(done, 10));
      return frame.kind === 'travel'
        ? keep({ kind: 'moved', mm: frame.mm, atMs })
        : keep({ kind: 'tilted', deg: frame.deg, atMs });
    },
    sourceClosed: (source) => void heard.closed.push(source),
    pageCame: () => {},
    alive: (page) => void heard.alive.push({ page, told: heard.hearing.length }),
    speaking: () => null,
    hearing: (page, listener) => void heard.hearing.push({ page, listener }),
    unplayed: (page, told) => void heard.unplayed.push({ page, ...told }),
    follow(follower) {
      followers.add(follower);
      return () => followers.delete(follower);
    },
    lines: () => lines,
    debrief: () => Promise.resolve({ measured: false, marks: [], trace: [], rmsErrorDeg: null, worst: null }),
    notice(notice) {
      for (const follower of followers) follower.notice?.(notice);
    },
    cancel(id) {
      for (const follower of followers) follower.cancel?.(id);
    },
    call,
    followers: () => followers.size,
    breakDown() {
      broken = true;
    },
  };
}

export function smallPlan(marks: number): Plan {
  return {
    format: 'by-the-mark/plan@1',
    title: 'Frame 3, port',
    units: 'mm',
    notation: 'mm',
    frame: { label: '3', side: 'port', sidingMm: 60, mouldingMm: 80, mouldedFace: 'forward' },
    marks: Array.from({ length: marks }, (_, index) => smallMark(index + 1)),
    curve: [],
    pickedUp: [],
    girthMm: marks * 150,
    stock: { thicknessMm: 90, widthMm: 80, lengthMm: marks * 150 },
    fairing: { rmsDeg: 0.1, suspects: [] },
    leads: 'heel',
    leadsIsSure: true,
    thickEdge: 'aft',
    hand: 1,
    twist: { maxDegPerM: 5, limitDegPerM: 30 },
    pace: { limitMPerMin: 3, limitedBy: 'wheel', durationS: 60, intervals: [] },
    stack: { laminationMm: 3.2, species: 'white oak', plies: 10 },
    saw: { tiltDeg: [-5, 45], readoutDeg: 0.5, readoutTable: [], degreesPerTurn: 2, leans: 'right', kerfMm: 2.4 },
    crew: { reactionS: 0.35, turnsPerS: 0.7, feedMPerMin: 3 },
    voice: { language: 'en', form: 'angle', numbers: 'digits' },
    defaults: [],
    warnings: [],
    cautions: [],
  };
}

const smallMark = (mark: number): PlannedMark => ({
  mark,
  girthMm: mark * 150,
  bevelDeg: 5 + mark,
  sawnDeg: 5 + mark,
  callDeg: 5 + mark,
  yMm: null,
  zMm: null,
  radiusMm: null,
  stockMm: (mark - 1) * 150,
  innerStockMm: (mark - 1) * 150,
  lineTopMm: 40,
  lineBottomMm: 45,
  outerEdgesMm: [40, 45],
  innerEdgesMm: [45, 40],
});
