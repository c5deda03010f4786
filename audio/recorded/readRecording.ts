/**
 * WAV files as others write them: RIFF, PCM of 8, 16, 24 or 32 bits or 32-bit floating point, any number of channels, also in the
 * extended format (Microsoft, "Multimedia Programming Interface and Data Specifications 1.0", 1991, and "Multiple Channel
 * Audio Data and WAVE Files", 2001). Channels are averaged.
 */

interface Recording {
  readonly rateHz: number;
  /** -1..1, one channel. */
  readonly samples: Float64Array;
}

const [PCM, FLOAT, EXTENDED] = [1, 3, 0xfffe];
const [SLOWEST_HZ, FASTEST_HZ] = [8000, 192_000];

interface Format {
  readonly rateHz: number;
  readonly channels: number;
  readonly read: (view: DataView, at: number) => number;
  readonly bytes: number;
}

/** Undefined where the bytes are no such file; one that was cut short is read as far as it goes. Never throws. */
export function readRecording(bytes: Uint8Array): Recording | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 12 || name(view, 0) !== 'RIFF' || name(view, 8) !== 'WAVE') return undefined;
  let format: Format | undefined;
  for (let at = 12; at + 8 <= bytes.length; ) {
    const size = view.getUint32(at + 4, true);
    const body = at + 8;
    if (name(view, at) === 'fmt ' && body + 16 <= bytes.length) format = readFormat(view, body, size);
    // A recorder that was cut off leaves a size of 0 or of what it had hoped for.
    if (name(view, at) === 'data')
      return format && mixed(view, body, Math.min(size === 0 ? bytes.length : size, bytes.length - body), format);
    at = body + size + (size & 1);
  }
  return undefined;
}

function readFormat(view: DataView, at: number, size: number): Format | undefined {
  const tag = view.getUint16(at, true);
  const kind = tag === EXTENDED && size >= 26 && at + 26 <= view.byteLength ? view.getUint16(at + 24, true) : tag;
  const channels = view.getUint16(at + 2, true);
  const rateHz = view.getUint32(at + 4, true);
  const bits = view.getUint16(at + 14, true);
  const read = READERS[`${kind} ${bits}`];
  if (read === undefined || channels < 1 || channels > 8 || rateHz < SLOWEST_HZ || rateHz > FASTEST_HZ)
    return undefined;
  return { rateHz, channels, read, bytes: bits / 8 };
}

const READERS: Readonly<Record<string, Format['read']>> = {
  [`${PCM} 8`]: (view, at) => (view.getUint8(at) - 128) / 128,
  [`${PCM} 16`]: (view, at) => view.getInt16(at, true) / 32_768,
  [`${PCM} 24`]: (view, at) => (view.getUint16(at, true) + view.getInt8(at + 2) * 65_536) / 8_388_608,
  [`${PCM} 32`]: (view, at) => view.getInt32(at, true) / 2_147_483_648,
  [`${FLOAT} 32`]: (view, at) => finite(view.getFloat32(at, true)),
};
const finite = (sample: number): number => (Number.isFinite(sample) ? Math.max(-1, Math.min(1, sample)) : 0);

function mixed(view: DataView, from: number, size: number, { rateHz, channels, read, bytes }: Format): Recording {
  const frame = channels * bytes;
  const samples = Float64Array.from({ length: Math.floor(size / frame) }, (_, i) => {
    let sum = 0;
    for (let c = 0; c < channels; c += 1) sum += read(view, from + i * frame + c * bytes);
    return sum / channels;
  });
  return { rateHz, samples };
}

const name = (view: DataView, at: number): string =>
  String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));
