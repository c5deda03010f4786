/** What the listeners of a run hear, as far as they have confirmed it. */
import type { Heard } from '../../core/run/engine/events.ts';
import type { Listener } from './messages.ts';

export const isConfirmed = ({ hearing }: Listener): boolean => hearing === 'confirmed';
export const hearsBevels = (listener: Listener): boolean => isConfirmed(listener) && listener.isWithoutBevels !== true;

/** The most that any of them is sure to hear. */
export function heardByAny(listeners: readonly Listener[]): Heard {
  if (listeners.some(hearsBevels)) return 'bevels';
  return listeners.some(isConfirmed) ? 'stops' : 'nobody';
}
