/** Zero crossings of the kernel on either side. */
const CROSSINGS = 20;
/** Of the slower rate's half: what lies above is faded out, so that nothing is folded down. */
const PASS = 0.94;
/** Of the Kaiser window: some 80 dB down beside the pass band (Kaiser 1974). */
const BETA = 8;

/**
 * The same sound at another rate: a windowed sinc for each of the few places that a sample of the new rate can have between two
 * of the old one (J. O. Smith, "Digital Audio Resampling Home Page", 2002). Rates are whole numbers of Hz.
 */
export function resample(samples: Float64Array, fromHz: number, toHz: number): Float64Array {
  if (fromHz === toHz) return samples;
  const common = divisor(fromHz, toHz);
  const [step, phases] = [fromHz / common, toHz / common];
  const cutoff = PASS * Math.min(1, toHz / fromHz);
  const reach = Math.ceil(CROSSINGS / cutoff);
  const kernels = Array.from({ length: phases }, (_, phase) => kernel(phase / phases, cutoff, reach));
  const length = Math.floor((samples.length * phases) / step);
  return Float64Array.from({ length }, (_, i) => {
    const place = i * step;
    const taps = kernels[place % phases];
    const first = Math.floor(place / phases) - reach + 1;
    if (taps === undefined) throw new RangeError(`no kernel for sample ${i}`);
    let sum = 0;
    for (let k = Math.max(0, -first); k < taps.length && first + k < samples.length; k += 1)
      sum += (taps[k] ?? 0) * (samples[first + k] ?? 0);
    return sum;
  });
}

/** The weights of the `2 reach` samples around a place that lies `fraction` after one of them; together 1. */
function kernel(fraction: number, cutoff: number, reach: number): Float64Array {
  const taps = Float64Array.from({ length: 2 * reach }, (_, k) => {
    const off = k - reach + 1 - fraction;
    return sinc(cutoff * off) * kaiser(off / reach);
  });
  const sum = taps.reduce((total, tap) => total + tap, 0);
  return taps.map((tap) => tap / sum);
}

const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));
const kaiser = (x: number): number => (Math.abs(x) >= 1 ? 0 : bessel(BETA * Math.sqrt(1 - x * x)) / bessel(BETA));

/** The modified Bessel function of the first kind and order 0, by its power series. */
function bessel(x: number): number {
  let term = 1;
  let sum = 1;
  for (let n = 1; term > sum * 1e-12; n += 1) {
    term *= (x / (2 * n)) ** 2;
    sum += term;
  }
  return sum;
}

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));
