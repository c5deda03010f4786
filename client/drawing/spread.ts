/** Which labels may be written so that none touches the next: the first and last always, the others where there is room. */
export function spread(positions: readonly number[], roomEach: number): readonly boolean[] {
  const last = positions.length - 1;
  const end = positions[last] ?? 0;
  let written = Number.NEGATIVE_INFINITY;
  return positions.map((at, index) => {
    const fits = index === last || (at - written >= roomEach && (index === 0 || end - at >= roomEach));
    if (fits) written = at;
    return fits;
  });
}
