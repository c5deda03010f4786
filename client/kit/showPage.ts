import { type ComponentChild, render } from 'preact';

/** Draws the page in the place of the words that say that it is loading. */
export function showPage(content: ComponentChild): void {
  const page = document.getElementById('page');
  if (page === null) throw new Error('no element "page" to draw in');
  page.replaceChildren();
  render(content, page);
}
