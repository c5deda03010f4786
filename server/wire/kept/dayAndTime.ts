const two = (n: number): string => `${n}`.padStart(2, '0');

/** By the clock of the machine, as 14:02:11. */
export function timeOf(atMs: number): string {
  const at = new Date(atMs);
  return `${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}`;
}

/** As 2031-05-17. */
export function dayOf(atMs: number): string {
  const at = new Date(atMs);
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}
