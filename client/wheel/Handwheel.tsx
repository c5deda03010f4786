/** A handwheel to turn in a rehearsal: by arrow keys, by dragging its rim, by scrolling over it. It tells the run its tilt. */

import { useEffect, useRef } from 'preact/hooks';
import type { Plan } from '../../server/core/plan/plan.ts';
import { shownDeg } from '../../server/core/saw/readout.ts';
import { PAGE_WHEEL_ID } from '../../server/wire/message/pageWheel.ts';
import { readoutFigure } from '../kit/figures/shownFigures.ts';
import type { RunLink } from '../kit/link/runLink.ts';
import { coordinate } from '../kit/page/coordinate.ts';
import { tiltOf, turnWheel, wheelAt } from './wheelHand.ts';
import { keepWheel, keptWheel } from './wheelMemory.ts';
import { WheelOwner } from './wheelOwner.ts';

const SEND_EVERY_MS = 50;
/** While it stands still, the tilt is told so often, so that a standing wheel is not taken for a dead sensor. */
const REPEAT_EVERY_MS = 200;
/** While it is turned, where it stands is kept so often. */
const KEEP_EVERY_MS = 200;
/** A notch of a mouse wheel, some 100 units, is a twelfth of a turn. */
const TURNS_PER_SCROLL = 1 / 1200;

export function Handwheel(props: { readonly link: RunLink; readonly plan: Plan; readonly run: string }) {
  const { link, plan, run } = props;
  const rim = useRef<SVGSVGElement>(null);
  const spokes = useRef<SVGGElement>(null);
  const readout = useRef<HTMLParagraphElement>(null);

  useEffect(() => {
    const svg = rim.current;
    if (svg === null) return;
    const limits = {
      turnsPerS: plan.crew.turnsPerS,
      degreesPerTurn: plan.saw.degreesPerTurn,
      ...(plan.saw.turnsTable === undefined ? {} : { turnsTable: plan.saw.turnsTable }),
      ...(plan.saw.backlashTurns === undefined ? {} : { backlashTurns: plan.saw.backlashTurns }),
      tiltDeg: plan.saw.tiltDeg,
    };
    const kept = keptWheel(run);
    let hand = kept?.hand ?? wheelAt(0, limits);
    const owner = new WheelOwner(kept?.isOurs ?? false);
    let keptAtMs = 0;
    const held = new Set<string>();
    let grip: number | null = null;
    let lastFrameMs = performance.now();
    let sentDeg = Number.NaN;
    let sentAtMs = 0;

    const pull = (turns: number): void => {
      // The hand lets go of a wheel that it is half a turn ahead of.
      const wanted = hand.wantedTurns + turns;
      hand = { ...hand, wantedTurns: Math.min(hand.turns + 0.5, Math.max(hand.turns - 0.5, wanted)) };
    };
    const angleOf = (event: PointerEvent): number => {
      const box = svg.getBoundingClientRect();
      return (
        Math.atan2(event.clientY - box.top - box.height / 2, event.clientX - box.left - box.width / 2) / (2 * Math.PI)
      );
    };
    const keyDown = (event: KeyboardEvent): void => {
      if (!(event.code in CRANKS)) return;
      event.preventDefault();
      held.add(event.code);
    };
    const keyUp = (event: KeyboardEvent): void => void held.delete(event.code);
    const letGo = (): void => {
      held.clear();
      grip = null;
    };
    const take = (event: PointerEvent): void => {
      grip = angleOf(event);
      svg.setPointerCapture(event.pointerId);
    };
    const drag = (event: PointerEvent): void => {
      if (grip === null) return;
      const angle = angleOf(event);
      pull(shortWay(angle - grip));
      grip = angle;
    };
    const scroll = (event: WheelEvent): void => {
      event.preventDefault();
      pull(-event.deltaY * TURNS_PER_SCROLL);
    };
    const keep = (nowMs: number): void => {
      keptAtMs = nowMs;
      keepWheel(run, { hand, isOurs: owner.isOurs });
    };
    const tell = (nowMs: number): void => {
      const deg = Math.round(tiltOf(hand, limits) * 1000) / 1000;
      const isDue = deg !== sentDeg ? nowMs - sentAtMs >= SEND_EVERY_MS : nowMs - sentAtMs >= REPEAT_EVERY_MS;
      const { state } = link.state.get().view ?? {};
      const isRunning = state === 'feeding' || owner.wasJustTurned(nowMs);
      if (!isDue || !owner.maySay(deg) || !isRunning || state === 'finished') return;
      owner.sent(deg);
      sentDeg = deg;
      sentAtMs = nowMs;
      void link.send({ kind: 'tilt', deg, id: PAGE_WHEEL_ID });
    };

    let frame = requestAnimationFrame(function turn(nowMs) {
      const cranking = Math.sign([...held].reduce((sum, code) => sum + (CRANKS[code] ?? 0), 0)) as -1 | 0 | 1;
      const before = hand.turns;
      hand = turnWheel(hand, cranking, Math.min(0.1, (nowMs - lastFrameMs) / 1000), limits);
      if (hand.turns !== before) {
        owner.turned(nowMs);
        if (nowMs - keptAtMs >= KEEP_EVERY_MS) keep(nowMs);
      }
      lastFrameMs = nowMs;
      spokes.current?.setAttribute('transform', `rotate(${coordinate(hand.turns * 360)})`);
      const shown = `${readoutFigure(shownDeg(tiltOf(hand, limits), plan.saw.readoutTable), plan.saw.readoutDeg)}°`;
      if (readout.current !== null && readout.current.textContent !== shown) readout.current.textContent = shown;
      tell(nowMs);
      frame = requestAnimationFrame(turn);
    });

    const forget = link.listen({
      guide: ({ tiltDeg }) => {
        if (!owner.told(tiltDeg, performance.now()) || tiltDeg === undefined) return;
        hand = wheelAt(tiltDeg, limits);
        sentDeg = tiltDeg;
      },
    });

    const leave = (): void => keep(performance.now());
    window.addEventListener('pagehide', leave);
    window.addEventListener('keydown', keyDown);
    window.addEventListener('keyup', keyUp);
    window.addEventListener('blur', letGo);
    svg.addEventListener('pointerdown', take);
    svg.addEventListener('pointermove', drag);
    svg.addEventListener('pointerup', letGo);
    svg.addEventListener('pointercancel', letGo);
    svg.addEventListener('wheel', scroll, { passive: false });
    return () => {
      cancelAnimationFrame(frame);
      forget();
      leave();
      window.removeEventListener('pagehide', leave);
      window.removeEventListener('keydown', keyDown);
      window.removeEventListener('keyup', keyUp);
      window.removeEventListener('blur', letGo);
    };
  }, [link, plan, run]);

  return (
    <section class="handwheel" aria-label="Handwheel">
      <div class="handwheel-shows">
        <p class="handwheel-label">Readout</p>
        <p class="handwheel-readout figures" ref={readout} />
      </div>
      <svg ref={rim} viewBox="-110 -110 220 220" role="img" aria-label="Handwheel: arrow keys, drag or scroll">
        <circle class="handwheel-rim" r="96" />
        <circle class="handwheel-rim" r="80" />
        <g ref={spokes}>
          {[0, 120, 240].map((deg) => (
            <path key={deg} class="handwheel-spoke" d="M0 -18 V-80" transform={`rotate(${deg})`} />
          ))}
          <circle class="handwheel-handle" cy="-88" r="15" />
        </g>
        <circle class="handwheel-hub" r="18" />
        <path class="handwheel-turn" d="M-40 -46 A61 61 0 0 1 40 -46 m-3 -13 l4 14 l-14 3" />
      </svg>
      <p class="handwheel-help">Drag it, scroll, or arrow keys. Clockwise is more, {worthOfTurn(plan.saw)}.</p>
    </section>
  );
}

const worthOfTurn = ({ degreesPerTurn, turnsTable, backlashTurns }: Plan['saw']): string =>
  [
    turnsTable === undefined ? `${degreesPerTurn}° a turn` : 'by the saw’s table',
    ...(backlashTurns === undefined || backlashTurns === 0 ? [] : [`${backlashTurns} turns loose`]),
  ].join(', ');

const CRANKS: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 };

/** Across the seam at half a turn. */
const shortWay = (turns: number): number => turns - Math.round(turns);
