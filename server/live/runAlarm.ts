/**
 * Has work done at a time, and gives what calls it off. A fault in it has no caller to tell, so that it is told to `onFault`.
 */
export type RunAlarm = (atMs: number, work: () => void) => () => void;

export function createAlarm(needs: {
  readonly nowMs: () => number;
  readonly onFault: (error: unknown) => void;
}): RunAlarm {
  return (atMs, work) => {
    const timer = setTimeout(
      () => {
        try {
          work();
        } catch (error) {
          needs.onFault(error);
        }
      },
      Math.max(0, Math.ceil(atMs - needs.nowMs())),
    );
    return () => clearTimeout(timer);
  };
}
