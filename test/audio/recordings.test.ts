import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { fromInt16, gainToDb, peakOf, SAMPLE_RATE_HZ } from '../../audio/pcm/format.ts';
import { loudnessLufs } from '../../audio/pcm/loudness.ts';
import { CEILING_DBFS, CLIP_LUFS } from '../../audio/pcm/makeClip.ts';
import { firstSound } from '../../audio/pcm/silence.ts';
import { prepare } from '../../audio/recorded/prepare.ts';
import { readRecording } from '../../audio/recorded/readRecording.ts';
import { resample } from '../../audio/recorded/resample.ts';
import { phrases } from '../../server/core/words/phrases.ts';
import { asWav, inARoom, type Room, speaker } from './aRecording.ts';

const voice = speaker();
afterAll(() => voice.close());

async function prepared(text: string, room?: Room) {
  return prepare({ text, bytes: asWav(inARoom(await voice.words(text), room), room?.rateHz) });
}

describe('a recording in a room becomes a clip', () => {
  test.each([
    ['four', 48_000],
    ['one two point five', 44_100],
    ['five', 96_000],
    ['twelve and a half', 16_000],
    [phrases.stopFeed, 48_000],
  ])('"%s" at %i Hz: words at once, as loud as every other, about as long as they were', async (text, rateHz) => {
    const made = await prepared(text, { rateHz });
    if (!made.ok) throw new Error(made.fault.message);
    const samples = fromInt16(made.samples);
    expect(Math.abs(loudnessLufs(samples, SAMPLE_RATE_HZ) - CLIP_LUFS)).toBeLessThan(0.5);
    expect(gainToDb(peakOf(samples))).toBeLessThanOrEqual(CEILING_DBFS + 0.01);
    expect(firstSound(samples, -30)).toBeLessThan(0.03 * SAMPLE_RATE_HZ);
    const wordsS = (await voice.words(text)).length / SAMPLE_RATE_HZ;
    expect(Math.abs(samples.length / SAMPLE_RATE_HZ - wordsS)).toBeLessThan(0.15);
  });

  test('a click of the mouse before it is no part of it', async () => {
    const samples = inARoom(await voice.words('seven'), { beforeS: 1.5 });
    for (let i = 0; i < 500; i += 1) samples[9600 + i] = 0.3 * (i % 2 === 0 ? 1 : -1);
    const made = prepare({ text: 'seven', bytes: asWav(samples) });
    expect(made.ok && made.samples.length / SAMPLE_RATE_HZ).toBeLessThan(0.8);
  });
});

describe('what is wrong with a recording is told', () => {
  test.each<[string, Room]>([
    ['clipped', { peak: 2 }],
    ['too-quiet', { peak: 0.004, noise: 0.00003 }],
    ['too-noisy', { noise: 0.03 }],
  ])('%s', async (code, room) => {
    expect(await prepared('one two point five', room)).toMatchObject({ ok: false, fault: { code } });
  });

  test('too long for these words', async () => {
    const bytes = asWav(inARoom(await voice.words(phrases.signalLost)));
    const made = prepare({ text: 'four', bytes });
    expect(made).toMatchObject({
      ok: false,
      fault: { code: 'too-long', message: expect.stringMatching(/ s, at most /) },
    });
  });

  test('nothing but the room', () => {
    const made = prepare({ text: 'four', bytes: asWav(inARoom(new Int16Array(0))) });
    expect(made).toMatchObject({ ok: false, fault: { code: 'nothing-heard' } });
  });

  test('anything that is no sound, whatever it is', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), fc.boolean(), (bytes, headed) => {
        const all = headed ? Uint8Array.from([...Buffer.from('RIFF\0\0\0\0WAVEfmt '), ...bytes]) : bytes;
        const made = prepare({ text: 'four', bytes: all });
        expect(made.ok).toBe(false);
      }),
    );
  });
});

describe('the files of others', () => {
  const header = (format: number, channels: number, bits: number, extended = false): Buffer => {
    const chunk = Buffer.alloc(extended ? 40 : 16);
    chunk.writeUInt16LE(extended ? 0xfffe : format, 0);
    chunk.writeUInt16LE(channels, 2);
    chunk.writeUInt32LE(44_100, 4);
    chunk.writeUInt16LE(bits, 14);
    if (extended) chunk.writeUInt16LE(format, 24);
    return chunk;
  };
  const file = (chunk: Buffer, data: Buffer): Uint8Array => {
    const sized = (name: string, body: Buffer): Buffer => {
      const size = Buffer.alloc(4);
      size.writeUInt32LE(body.length);
      return Buffer.concat([Buffer.from(name), size, body]);
    };
    return Buffer.concat([
      Buffer.from('RIFF'),
      Buffer.alloc(4),
      Buffer.from('WAVE'),
      sized('LIST', Buffer.from('INFOabcd')),
      sized('fmt ', chunk),
      sized('data', data),
    ]);
  };
  const wave = [0, 0.25, 0.5, -0.5, -1];
  const written: Readonly<Record<string, (s: number) => Buffer>> = {
    '1 8': (s) => Buffer.from([128 + 127 * s]),
    '1 16': (s) => Buffer.from(Int16Array.of(32_767 * s).buffer),
    '1 24': (s) => {
      const three = Buffer.alloc(3);
      three.writeIntLE(Math.round(8_388_607 * s), 0, 3);
      return three;
    },
    '1 32': (s) => Buffer.from(Int32Array.of(2_147_483_647 * s).buffer),
    '3 32': (s) => Buffer.from(Float32Array.of(s).buffer),
  };

  test.each(Object.keys(written))('of kind and bits %s, one channel or two, plain or extended', (kind) => {
    const [format = 0, bits = 0] = kind.split(' ').map(Number);
    for (const channels of [1, 2])
      for (const extended of [false, true]) {
        const data = Buffer.concat(
          wave.flatMap((s) => Array.from({ length: channels }, () => written[kind]?.(s) ?? Buffer.alloc(0))),
        );
        const read = readRecording(file(header(format, channels, bits, extended), data));
        expect(read?.rateHz).toBe(44_100);
        expect(read?.samples).toHaveLength(wave.length);
        wave.forEach((s, i) => {
          expect(read?.samples[i]).toBeCloseTo(s, 1);
        });
      }
  });

  test('a recorder that was cut off, and a file of another kind', () => {
    const whole = file(header(1, 1, 16), Buffer.alloc(400));
    expect(readRecording(whole.subarray(0, whole.length - 101))?.samples.length).toBe(149);
    expect(readRecording(file(header(2, 1, 4), Buffer.alloc(100)))).toBeUndefined();
    expect(readRecording(file(header(1, 0, 16), Buffer.alloc(100)))).toBeUndefined();
  });
});

describe('another rate', () => {
  const tone = (hz: number, rateHz: number): Float64Array =>
    Float64Array.from({ length: rateHz / 2 }, (_, i) => Math.sin((2 * Math.PI * hz * i) / rateHz));
  const level = (samples: Float64Array): number => {
    const middle = samples.subarray(1000, -1000);
    return gainToDb(Math.sqrt((2 * middle.reduce((sum, s) => sum + s * s, 0)) / middle.length));
  };
  test.each([48_000, 44_100, 96_000, 32_000])('from %i Hz: a voice as it was, nothing folded down', (rateHz) => {
    for (const hz of [100, 1000, 4000, 8000])
      expect(Math.abs(level(resample(tone(hz, rateHz), rateHz, SAMPLE_RATE_HZ)))).toBeLessThan(0.05);
    for (const hz of [12_500, 15_000].filter((each) => each < rateHz / 2))
      expect(level(resample(tone(hz, rateHz), rateHz, SAMPLE_RATE_HZ))).toBeLessThan(-60);
  });
  test('up from 16,000 Hz the words are where they were', () => {
    const up = resample(tone(440, 16_000), 16_000, SAMPLE_RATE_HZ);
    expect(up).toHaveLength(11_025);
    const off = up.map((s, i) => s - Math.sin((2 * Math.PI * 440 * i) / SAMPLE_RATE_HZ)).subarray(500, -500);
    expect(peakOf(off)).toBeLessThan(0.002);
  });
});
