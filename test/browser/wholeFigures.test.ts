/** A figure in a sentence of a page is one element that no line's end can part. */
import { createElement, type VNode } from 'preact';
import { expect, test } from 'vitest';
import { keepFiguresWhole } from '../../client/kit/figures/wholeFigures.ts';

test.each([
  ['dressed 0-0-5++ thick, 0-1-7 wide', ['0-0-5++', '0-1-7']],
  ['a radius of 56-6-0.', ['56-6-0']],
  ['get out 7-2-5+-; dress it', ['7-2-5+-']],
  ['lies 7 7/8 in from the end, 1/32 in off', ['7 7/8 in', '1/32 in']],
  ['lies 12.5 mm from mark 13 to mark 1', ['12.5 mm']],
  ['feed 3 m/min or 9.84 ft/min, 25 mm apart', ['3 m/min', '9.84 ft/min', '25 mm']],
])('%s', (sentence, figures) => {
  keepFiguresWhole();
  const { children } = createElement('p', null, sentence).props as { children: string | (string | VNode)[] };
  const parts = Array.isArray(children) ? children : [children];
  const whole = parts.filter((part) => typeof part !== 'string').map(({ props }) => props as Record<string, unknown>);
  expect(whole).toEqual(figures.map((figure) => ({ class: 'whole', children: figure })));
  expect(parts.map((part) => (typeof part === 'string' ? part : Reflect.get(part.props, 'children'))).join('')).toBe(
    sentence,
  );
});

test('in a drawing nothing is put in', () => {
  keepFiguresWhole();
  expect(createElement('text', null, '0-0-5').props).toEqual({ children: '0-0-5' });
});
