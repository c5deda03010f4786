/**
 * The discrete Fourier transform in place, for lengths that are powers of two: Cooley and Tukey, Math. Comp. 19 (1965), 297-301
 * (from memory), by halves, with the samples put in bit-reversed order first.
 */
export function fft(re: Float64Array, im: Float64Array): void {
  const n = re.length;
  if (n !== im.length || (n & (n - 1)) !== 0)
    throw new RangeError(`${n} and ${im.length} samples: wanted one power of two`);
  for (let i = 1, j = 0; i < n; i += 1) {
    let bit = n >> 1;
    for (; (j & bit) !== 0; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) {
      swap(re, i, j);
      swap(im, i, j);
    }
  }
  for (let size = 2; size <= n; size *= 2) butterflies(re, im, size);
}

/** Undoes `fft`. */
export function inverseFft(re: Float64Array, im: Float64Array): void {
  fft(im, re);
  for (let i = 0; i < re.length; i += 1) {
    re[i] = at(re, i) / re.length;
    im[i] = at(im, i) / im.length;
  }
}

function butterflies(re: Float64Array, im: Float64Array, size: number): void {
  const half = size / 2;
  for (let k = 0; k < half; k += 1) {
    const angle = (-2 * Math.PI * k) / size;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    for (let i = k; i < re.length; i += size) {
      const j = i + half;
      const turnedRe = at(re, j) * cos - at(im, j) * sin;
      const turnedIm = at(re, j) * sin + at(im, j) * cos;
      re[j] = at(re, i) - turnedRe;
      im[j] = at(im, i) - turnedIm;
      re[i] = at(re, i) + turnedRe;
      im[i] = at(im, i) + turnedIm;
    }
  }
}

function swap(values: Float64Array, i: number, j: number): void {
  const kept = at(values, i);
  values[i] = at(values, j);
  values[j] = kept;
}

const at = (values: Float64Array, i: number): number => values[i] ?? Number.NaN;
