/** Shapes that tell what their word tells, for whoever cannot tell colours apart or reads from afar. */
import type { ComponentChildren } from 'preact';
import type { Phase } from '../../../server/core/run/engine/state.ts';

function Shape({ children }: { readonly children: ComponentChildren }) {
  return (
    <svg class="shape" viewBox="0 0 24 24" aria-hidden="true" fill="none" stroke="currentColor" stroke-width="2.6">
      {children}
    </svg>
  );
}

/** Round, open: not yet. */
export const ReadyShape = () => (
  <Shape>
    <circle cx="12" cy="12" r="9" />
  </Shape>
);
/** An arrowhead: the wood goes on. */
export const FeedingShape = () => (
  <Shape>
    <path d="M5 3 L21 12 L5 21 Z" fill="currentColor" stroke-linejoin="round" />
  </Shape>
);
/** A full square: standing. */
export const StoppedShape = () => (
  <Shape>
    <rect x="3.5" y="3.5" width="17" height="17" fill="currentColor" stroke-linejoin="round" />
  </Shape>
);
/** A broken ring around an exclamation mark. */
export const LostShape = () => (
  <Shape>
    <path d="M9 2.6 A10 10 0 0 0 2.6 9 M2.6 15 A10 10 0 0 0 9 21.4 M15 21.4 A10 10 0 0 0 21.4 15 M21.4 9 A10 10 0 0 0 15 2.6" />
    <path d="M12 6 V13.5 M12 16.6 V18.4" stroke-width="3" />
  </Shape>
);
export const DoneShape = () => (
  <Shape>
    <path d="M3 13 L9.5 19.5 L21 5" stroke-width="3.4" />
  </Shape>
);
/** A triangle standing on its base: take care. */
export const CareShape = () => (
  <Shape>
    <path d="M12 2.5 L22.5 21 H1.5 Z" stroke-linejoin="round" />
    <path d="M12 9 V14.6 M12 16.8 V18.6" />
  </Shape>
);
/** A cross in a square: this one is not right. */
export const WrongShape = () => (
  <Shape>
    <rect x="2.5" y="2.5" width="19" height="19" />
    <path d="M7.5 7.5 L16.5 16.5 M16.5 7.5 L7.5 16.5" />
  </Shape>
);
export const NoteShape = () => (
  <Shape>
    <path d="M4 4 H20 V20 H4 Z M8 9 H16 M8 14 H13" stroke-width="2" />
  </Shape>
);
export const EarShape = () => (
  <Shape>
    <path d="M3 9 H7 L13 4 V20 L7 15 H3 Z" stroke-linejoin="round" />
    <path d="M16.5 8.5 A5 5 0 0 1 16.5 15.5 M19.3 5.5 A9 9 0 0 1 19.3 18.5" stroke-width="2.2" />
  </Shape>
);
export const DeafShape = () => (
  <Shape>
    <path d="M3 9 H7 L13 4 V20 L7 15 H3 Z" stroke-linejoin="round" />
    <path d="M16.5 9 L22 15 M22 9 L16.5 15" stroke-width="2.2" />
  </Shape>
);
/** A wedge that thickens: more bevel. */
export const MoreShape = () => (
  <Shape>
    <path d="M2 18 L22 18 L22 4 Z" fill="currentColor" stroke-linejoin="round" />
  </Shape>
);
/** A wedge that thins: less bevel. */
export const LessShape = () => (
  <Shape>
    <path d="M2 4 L22 18 L2 18 Z" fill="currentColor" stroke-linejoin="round" />
  </Shape>
);
/** Two parallel lines: it stays. */
export const SameShape = () => (
  <Shape>
    <path d="M3 9 H21 M3 16 H21" stroke-width="3.2" />
  </Shape>
);

/** A dial of speed, its needle low and an arrow back along it: slower. */
export const EaseShape = () => (
  <Shape>
    <path d="M21.6 17.5 A9.8 9.8 0 0 0 5 8.6" stroke-width="2.8" />
    <path d="M9.6 8.6 L2 11.4 L4 3.6 Z" fill="currentColor" stroke="none" />
    <path d="M12.6 18.4 L4.2 16.6" stroke-width="3.4" stroke-linecap="round" />
    <circle cx="13" cy="18.4" r="2.6" fill="currentColor" stroke="none" />
  </Shape>
);
/** A ring of dots: perhaps here. */
export const GuessShape = () => (
  <Shape>
    <circle cx="12" cy="12" r="9" stroke-dasharray="3.4 3.67" stroke-width="3.4" />
  </Shape>
);
/** A ring struck through: nothing is heard. */
export const NoNewsShape = () => (
  <Shape>
    <path d="M12 3 A9 9 0 0 1 12 21 A9 9 0 0 1 12 3 M3 21 L21 3" stroke-width="3" />
  </Shape>
);
/** Two bars that should meet, as left of the blade on the chalked board: the one had lies above the one wanted. */
export const TooMuchShape = () => <TwoBars hadY={6.5} />;
/** The one had lies under the one wanted. */
export const TooLittleShape = () => <TwoBars hadY={21.5} />;
/** They meet. */
export const OnItShape = () => <TwoBars hadY={14} />;

function TwoBars({ hadY }: { readonly hadY: number }) {
  return (
    <Shape>
      <path class="shape-had" d={`M0 ${hadY} H11.6`} stroke-width="6" />
      <path d="M12.4 14 H24" stroke-width="6" />
    </Shape>
  );
}

export const STATE_SHAPES: Readonly<Record<Phase, () => ReturnType<typeof ReadyShape>>> = {
  ready: ReadyShape,
  feeding: FeedingShape,
  stopped: StoppedShape,
  lost: LostShape,
  finished: DoneShape,
};
