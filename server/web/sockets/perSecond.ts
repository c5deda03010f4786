/** Whether one more is taken in this second, of what costs much; `nowMs` of any steady clock. */
export function createPerSecond(atMost: number): (nowMs: number) => boolean {
  let second = Number.NaN;
  let count = 0;
  return (nowMs) => {
    const now = Math.floor(nowMs / 1000);
    if (now !== second) {
      second = now;
      count = 0;
    }
    count += 1;
    return count <= atMost;
  };
}
