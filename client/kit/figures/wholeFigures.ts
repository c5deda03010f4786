/** Keeps each figure on one line, on every page: a browser parts feet-inches-eighths at its hyphens, and a whole number from its fraction. */
import { type ComponentChildren, createElement, options, type VNode } from 'preact';
import { FIGURE_OF_PARTS } from '../../../server/core/figures/inches.ts';

/** Where sentences stand. In a drawing's text or in a field an element more would do harm. */
const HAS_SENTENCES: ReadonlySet<unknown> = new Set([
  'p',
  'dd',
  'dt',
  'li',
  'td',
  'div',
  'span',
  'strong',
  'figcaption',
]);
const WHOLE = 'whole';

/** From then on every element that is made. The text that is read from a page stays as it was. */
export function keepFiguresWhole(): void {
  options.vnode = (node) => {
    const { type, props } = node as VNode<{ class?: unknown; children?: ComponentChildren }>;
    if (!HAS_SENTENCES.has(type) || props.class === WHOLE || props.children === undefined) return;
    props.children = withWhole(props.children);
  };
}

function withWhole(children: ComponentChildren): ComponentChildren {
  if (Array.isArray(children)) return children.map(withWhole);
  if (typeof children !== 'string') return children;
  const parts = children.split(FIGURE_OF_PARTS);
  if (parts.length === 1) return children;
  return parts.map((part, index) => (index % 2 === 1 ? createElement('span', { class: WHOLE }, part) : part));
}
