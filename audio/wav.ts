/**
 * WAV files as this program writes them: RIFF, PCM, one channel, 16 bits, little endian (Microsoft and IBM, "Multimedia
 * Programming Interface and Data Specifications 1.0", 1991), with an optional comment (`LIST` `INFO` `ICMT`) before the sound.
 */

interface Wav {
  readonly sampleRateHz: number;
  readonly samples: Int16Array;
  /** ASCII. */
  readonly comment?: string;
}

type WavRead = { readonly ok: true; readonly wav: Wav } | { readonly ok: false; readonly why: string };

export const durationMs = ({ samples, sampleRateHz }: Wav): number => (samples.length / sampleRateHz) * 1000;

export function writeWav({ sampleRateHz, samples, comment }: Wav): Uint8Array {
  const chunks = [
    chunk('fmt ', formatBody(sampleRateHz)),
    ...(comment === undefined ? [] : [chunk('LIST', joined([ascii('INFO'), chunk('ICMT', ascii(`${comment}\0`))]))]),
    chunk('data', soundBody(samples)),
  ];
  return chunk('RIFF', joined([ascii('WAVE'), ...chunks]));
}

/** Reads back what `writeWav` wrote, and any other mono 16-bit PCM; whatever is cut short or of another kind is told, not thrown. */
export function readWav(bytes: Uint8Array): WavRead {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 12 || text(bytes, 0) !== 'RIFF' || text(bytes, 8) !== 'WAVE')
    return { ok: false, why: 'not a WAV' };
  if (view.getUint32(4, true) + 8 > bytes.length) return { ok: false, why: 'cut short' };

  let sampleRateHz: number | undefined;
  let comment: string | undefined;
  for (let at = 12; at + 8 <= bytes.length; ) {
    const id = text(bytes, at);
    const size = view.getUint32(at + 4, true);
    const body = at + 8;
    if (body + size > bytes.length) return { ok: false, why: `cut short in ${JSON.stringify(id)}` };
    if (id === 'fmt ') {
      if (size < 16 || !isMono16(view, body)) return { ok: false, why: 'not mono 16-bit PCM' };
      sampleRateHz = view.getUint32(body + 4, true);
    } else if (id === 'LIST' && size >= 12 && text(bytes, body) === 'INFO' && text(bytes, body + 4) === 'ICMT') {
      const length = Math.min(view.getUint32(body + 8, true), size - 12);
      comment = String.fromCharCode(...bytes.subarray(body + 12, body + 12 + length)).replace(/\0+$/, '');
    } else if (id === 'data') {
      if (sampleRateHz === undefined) return { ok: false, why: 'sound before its format' };
      const samples = Int16Array.from({ length: size >> 1 }, (_, i) => view.getInt16(body + 2 * i, true));
      return { ok: true, wav: { sampleRateHz, samples, ...(comment === undefined ? {} : { comment }) } };
    }
    at = body + size + (size & 1);
  }
  return { ok: false, why: 'no sound in it' };
}

const isMono16 = (view: DataView, body: number): boolean =>
  view.getUint16(body, true) === 1 && view.getUint16(body + 2, true) === 1 && view.getUint16(body + 14, true) === 16;

function formatBody(sampleRateHz: number): Uint8Array {
  const view = new DataView(new ArrayBuffer(16));
  view.setUint16(0, 1, true);
  view.setUint16(2, 1, true);
  view.setUint32(4, sampleRateHz, true);
  view.setUint32(8, sampleRateHz * 2, true);
  view.setUint16(12, 2, true);
  view.setUint16(14, 16, true);
  return new Uint8Array(view.buffer);
}

function soundBody(samples: Int16Array): Uint8Array {
  const view = new DataView(new ArrayBuffer(samples.length * 2));
  samples.forEach((sample, i) => {
    view.setInt16(2 * i, sample, true);
  });
  return new Uint8Array(view.buffer);
}

/** Chunks stand on even places; the pad byte is not counted in the size. */
function chunk(id: string, body: Uint8Array): Uint8Array {
  const size = new DataView(new ArrayBuffer(4));
  size.setUint32(0, body.length, true);
  return joined([ascii(id), new Uint8Array(size.buffer), body, new Uint8Array(body.length & 1)]);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

const ascii = (words: string): Uint8Array => Uint8Array.from(words, (letter) => letter.charCodeAt(0));
const text = (bytes: Uint8Array, at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));
