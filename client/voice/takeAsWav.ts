import type { Take } from './microphone.ts';

const HEADER_BYTES = 44;

/** A take as a WAV file: one channel, 16 bits, at the microphone's own rate. */
export function takeAsWav({ rateHz, samples }: Take): Uint8Array<ArrayBuffer> {
  const view = new DataView(new ArrayBuffer(HEADER_BYTES + 2 * samples.length));
  const name = (at: number, text: string): void => {
    for (let i = 0; i < text.length; i += 1) view.setUint8(at + i, text.charCodeAt(i));
  };
  name(0, 'RIFF');
  view.setUint32(4, view.byteLength - 8, true);
  name(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, rateHz, true);
  view.setUint32(28, 2 * rateHz, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  name(36, 'data');
  view.setUint32(40, 2 * samples.length, true);
  samples.forEach((sample, i) => {
    view.setInt16(HEADER_BYTES + 2 * i, Math.round(Math.max(-1, Math.min(1, sample)) * 32_767), true);
  });
  return new Uint8Array(view.buffer);
}

const AT_ONCE = 0x8000;

export function base64(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += AT_ONCE) text += String.fromCharCode(...bytes.subarray(at, at + AT_ONCE));
  return btoa(text);
}
