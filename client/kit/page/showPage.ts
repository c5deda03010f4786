import { type ComponentChild, render } from 'preact';
import { keepFiguresWhole } from '../figures/wholeFigures.ts';

/** Draws the page in the place of the words that say that it is loading. */
export function showPage(content: ComponentChild): void {
  const page = document.getElementById('page');
  if (page === null) throw new Error('no element "page" to draw in');
  page.replaceChildren();
  keepFiguresWhole();
  render(content, page);
}
