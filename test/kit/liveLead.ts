import type { outsideClient } from './client.ts';
import { outsideFeed, unixMs } from './outsideFeed.ts';

export interface LiveLead {
  readonly mark: number;
  /** From the end of the words to the mark at the blade, by the outsider's own clock. */
  readonly leadMs: number;
  /** The reaction and the turn of the wheel, by the plan. */
  readonly askedMs: number;
}
interface LivePlan {
  readonly leads: string;
  readonly marks: readonly { readonly mark: number; readonly stockMm: number; readonly callDeg: number }[];
  readonly pace: { readonly limitMPerMin: number };
  readonly crew: { readonly reactionS: number; readonly turnsPerS: number };
  readonly saw: { readonly degreesPerTurn: number };
}

/** Wood comes up to the blade while the first bevel is said. */
const LEAD_IN_MS = 2500;

/** Plays a whole run on `/feed` in real time, at a share of the plan's pace limit, and looks on `/readout` when each call was over. */
export async function liveLeads(
  { post, get, socket }: ReturnType<typeof outsideClient>,
  job: object,
  share: number,
): Promise<readonly LiveLead[]> {
  const made = await post('/api/runs', { ...job, mode: 'pair', feed: { kind: 'external' } });
  if (made.status !== 201) throw new Error(`no run was made: ${made.status} ${made.text}`);
  const { run, plan } = made.json as { run: string; plan: LivePlan };
  const readout = await socket(`/readout?run=${run}`);
  const feed = await socket(`/feed?run=${run}`);
  await post(`/api/runs/${run}/start`);
  await new Promise((resolve) => setTimeout(resolve, LEAD_IN_MS));
  const wood = outsideFeed({ mPerMin: share * plan.pace.limitMPerMin, seed: 5 }, (frame) => feed.send(frame));
  const order = plan.leads === 'head' ? plan.marks.toReversed() : plan.marks;
  const startMm = order[0]?.stockMm ?? 0;
  const arrivals = new Map<number, number>();
  while (arrivals.size < order.length) {
    await new Promise((resolve) => setTimeout(resolve, 2));
    const nowMs = unixMs();
    const next = order[arrivals.size];
    if (next !== undefined && wood.truthMm(nowMs) >= Math.abs(next.stockMm - startMm)) arrivals.set(next.mark, nowMs);
  }
  wood.end();
  const state = (await get(`/api/runs/${run}`)).json.state;
  if (state !== 'finished' && state !== 'feeding') throw new Error(`the run stands ${state}`);
  feed.close();
  readout.close();
  const askedMs = new Map(
    order.slice(1).map(({ mark, callDeg }, i) => [mark, turnMs(plan, order[i]?.callDeg, callDeg)]),
  );
  return readout.heard.flatMap(({ atMs, frame }) => {
    const arrivedMs = arrivals.get(Number(frame.mark));
    const asked = askedMs.get(Number(frame.mark));
    if (frame.kind !== 'call' || arrivedMs === undefined || asked === undefined) return [];
    const overMs = performance.timeOrigin + atMs + Number(frame.startsInMs) + Number(frame.durationMs);
    return [{ mark: Number(frame.mark), leadMs: arrivedMs - overMs, askedMs: 1000 * plan.crew.reactionS + asked }];
  });
}

const turnMs = ({ crew, saw }: LivePlan, fromDeg = 0, toDeg = 0): number =>
  (1000 * Math.abs(toDeg - fromDeg)) / (saw.degreesPerTurn * crew.turnsPerS);
