import type { Page } from 'playwright-core';

/** Ticks off the square at zero on a sawyer's page, where it is asked for: in a rehearsal it is not. */
export async function squareAtZero(sawyer: Page): Promise<void> {
  await sawyer.locator('button.next').waitFor();
  const tick = sawyer.getByRole('button', { name: /^Blade square, readout/ });
  if ((await tick.count()) === 0) return;
  await tick.click();
  await sawyer.locator('.square-done').waitFor();
}
