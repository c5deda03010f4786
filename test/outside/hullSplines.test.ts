/**
 * Sections, loft and frames against a general reference library: scipy's CubicSpline, quad and brentq, put together as our surface is
 * defined. Status: read, that is computed by test/outside/fixtures/scipy_hull.py with the versions kept in the fixture.
 */
import { readFileSync } from 'node:fs';
import { describe, test } from 'vitest';
import { hullFrame } from '../../server/core/frame/hullFrame.ts';
import { hullSurface } from '../../server/core/hull/surface.ts';
import { expectClose } from '../kit/close.ts';
import { offsetTable } from '../kit/offsetTable.ts';

interface Reference {
  readonly made: { readonly scipy: string };
  readonly x: readonly number[];
  readonly sections: readonly (readonly (readonly [number, number])[])[];
  readonly frames: readonly (Readonly<Record<'girth' | 'y' | 'z' | 'bevel' | 'curvature', readonly number[]>> & {
    readonly at: number;
  })[];
}
const reference: Reference = JSON.parse(readFileSync(new URL('./fixtures/scipy-hull.json', import.meta.url), 'utf8'));

describe(`scipy ${reference.made.scipy}`, () => {
  const surface = hullSurface(offsetTable(reference.x, (x) => reference.sections[reference.x.indexOf(x)] ?? []));
  test.each(reference.frames)('the frame at $at: places, girth, bevel, curvature', ({ at, ...wanted }) => {
    const stand = { atMm: at, cantDeg: 0, plankingMm: 0, sidingMm: 50, mouldedFace: 'forward' } as const;
    const frame = hullFrame(surface, stand);
    if (frame === undefined) throw new Error(`no frame at ${at}`);
    expectClose(frame.girthMm, wanted.girth.at(-1) ?? 0, 1e-3, 'girth');
    wanted.girth.forEach((girthMm, i) => {
      const found = frame.at(girthMm);
      const figure = (name: keyof typeof wanted): number => wanted[name][i] ?? Number.NaN;
      expectClose(found.yMm, figure('y'), 1e-3, `half-breadth at girth ${girthMm}`);
      expectClose(found.zMm, figure('z'), 1e-3, `height at girth ${girthMm}`);
      expectClose(found.bevelDeg, figure('bevel'), 1e-4, `bevel at girth ${girthMm}`);
      expectClose(found.curvaturePerMm, figure('curvature'), 1e-7, `curvature at girth ${girthMm}`);
    });
  });
});
