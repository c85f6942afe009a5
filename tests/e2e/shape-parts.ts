/** Where the picture in space and what belongs to it are on the page, and when they are drawn. */

import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { framesDrawn } from './page-parts.ts';

export async function press(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name, exact: true }).first().click();
}

export async function showTab(page: Page, name: string): Promise<void> {
  await page.getByRole('tab', { name }).click();
  await page.getByRole('tabpanel', { name }).waitFor();
}

export async function frames(page: Page): Promise<number> {
  return Number(await page.locator('.solid-canvas').getAttribute('data-frames'));
}

/** How many frames of the page the picture must stand still for to be taken as drawn. */
const STILL_FRAMES = 6;

/** Resolves once the picture is there and is not drawn any more. */
export async function still(page: Page): Promise<void> {
  await page.locator('.solid-canvas[data-frames]').waitFor({ state: 'attached' });
  for (let before = -1, now = await frames(page); now !== before; now = await frames(page)) {
    before = now;
    await framesDrawn(page, STILL_FRAMES);
  }
}

/** Resolves once the picture has been drawn anew because of `act`, and is not drawn any more. */
export async function redrawn(page: Page, act: () => Promise<unknown>): Promise<void> {
  const before = await frames(page);
  await act();
  await expect.poll(() => frames(page)).toBeGreaterThan(before);
  await still(page);
}
