import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  checkFeedFrame,
  FRAME_LIMIT_CHARS,
  type ParsedFrame,
  parseFeedFrame,
} from '../../../server/wire/message/feedFrame.ts';

const good = [
  { kind: 'pedal' },
  { kind: 'pedal', gesture: 'again', id: 'a' },
  { kind: 'pedal', gesture: 'back' },
  { kind: 'pedal', gesture: 'stop', id: 'x'.repeat(64) },
  { kind: 'pedal', gesture: 'down', id: 'd', ageMs: 5 },
  { kind: 'pedal', gesture: 'up' },
  { kind: 'mark', mark: 7, offsetMm: 0 },
  { kind: 'mark', mark: 2000 },
  { kind: 'travel', mm: 1234.5, id: '' },
  { kind: 'tilt', deg: -12.3 },
];

/** A refusal says what is wrong in one printable line. */
function expectRefused(parsed: ParsedFrame): void {
  if (parsed.ok) throw new Error(`should be refused: ${JSON.stringify(parsed.frame)}`);
  expect(parsed.error.code).toMatch(/^(bad-shape|not-json|too-large)$/);
  expect(parsed.error.message).not.toBe('');
  expect(parsed.error.message).not.toMatch(/[\p{Cc}\p{Cs}]/u);
  expect(parsed.error.message.length).toBeLessThan(500);
}

describe('a frame', () => {
  it.each(good.map((frame) => [frame]))('%j is taken as it is', (frame) => {
    expect(parseFeedFrame(JSON.stringify(frame))).toEqual({ ok: true, frame });
  });

  it('that is refused names the field, and gives back the id', () => {
    expect(parseFeedFrame('{"kind":"mark","mark":0,"id":"q"}')).toMatchObject({
      ok: false,
      id: 'q',
      error: { path: 'mark' },
    });
    expect(parseFeedFrame('{"kind":"jump"}')).toMatchObject({
      error: { path: 'kind', message: 'kind: expected one of "pedal", "mark", "travel", "tilt", found "jump"' },
    });
    expect(parseFeedFrame('{"kind":"pedal","gesture":"x"}')).toMatchObject({ error: { path: 'gesture' } });
    expect(parseFeedFrame('{"kind":"pedal","times":2}')).toMatchObject({ error: { path: 'times' } });
    expect(parseFeedFrame('{"kind":"tilt","deg":"12"}')).toMatchObject({ error: { path: 'deg' } });
    expect(parseFeedFrame('{"kind":"travel","mm":1e999}')).toMatchObject({ error: { path: 'mm' } });
    expect(parseFeedFrame('')).toMatchObject({ error: { code: 'not-json' } });
    expect(parseFeedFrame(`{"kind":"pedal"${' '.repeat(FRAME_LIMIT_CHARS)}}`)).toMatchObject({
      error: { code: 'too-large' },
    });
  });

  it('that is nested without end is refused like any other', () => {
    const deep: unknown = JSON.parse(`${'['.repeat(200_000)}${']'.repeat(200_000)}`);
    for (const frame of [
      deep,
      { kind: deep },
      { kind: 'travel', mm: deep },
      { kind: 'pedal', id: deep },
      { kind: 'pedal', x: deep },
    ])
      expectRefused(checkFeedFrame(frame));
  });

  it('that is spoilt in one place is refused with the place (1,000 frames)', () => {
    const junk = fc
      .anything({ maxDepth: 1, withNullPrototype: true, withBigInt: true })
      .filter((value) => value !== undefined);
    const wrongFor = (frame: object, name: string, value: unknown): boolean =>
      !checkFeedFrame({ ...frame, [name]: value }).ok;
    fc.assert(
      fc.property(
        fc.constantFrom(...good),
        fc.nat(),
        junk,
        fc.string({ unit: 'binary' }),
        (frame, pick, value, spare) => {
          const names = [...Object.keys(frame), spare];
          const name = names[pick % names.length] ?? spare;
          fc.pre(name !== '__proto__' && wrongFor(frame, name, value));
          const parsed = checkFeedFrame({ ...frame, [name]: value });
          expectRefused(parsed);
          if (!parsed.ok) expect(parsed.error.path).toBeTruthy();
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('of any text and any value never throws (2,000 texts, 1,000 values)', () => {
    const cut = fc
      .tuple(fc.constantFrom(...good), fc.nat(), fc.string({ unit: 'binary', maxLength: 5 }))
      .map(([frame, at, put]) => {
        const text = JSON.stringify(frame);
        return text.slice(0, at % text.length) + put + text.slice((at % text.length) + 1);
      });
    const check = (parsed: ParsedFrame): void => (parsed.ok ? undefined : expectRefused(parsed));
    fc.assert(
      fc.property(fc.oneof(cut, fc.json(), fc.string({ unit: 'binary' })), (text) => check(parseFeedFrame(text))),
      { numRuns: 2000 },
    );
    fc.assert(
      fc.property(fc.anything(), (value) => check(checkFeedFrame(value))),
      { numRuns: 1000 },
    );
  });
});
