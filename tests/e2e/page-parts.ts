/** Where things are on the page, by the names that a screen reader gives them. */

import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { AppUnderTest } from './running-app.ts';
import type { Faults } from './watch-faults.ts';

export function entryLine(page: Page): Locator {
  return page.getByRole('combobox', { name: 'Next piece' });
}

export function saveMark(page: Page): Locator {
  return page.locator('[data-save]');
}

/** The text of every shown piece row. */
export async function pieceRows(page: Page): Promise<readonly string[]> {
  return await page.locator('.piece-grid tbody tr[aria-rowindex]').allInnerTexts();
}

export async function enterLine(page: Page, text: string): Promise<void> {
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

/** The open header's name in the bar, with the menu on it. */
export function headerMenu(page: Page, name: string): Locator {
  return page.getByRole('button', { name: `${name}: header menu`, exact: true });
}

/** Opens a panel by its word on the rail, unless it is open, and ends once it is there. */
export async function openPanel(page: Page, word: string): Promise<void> {
  const rail = page.getByRole('toolbar', { name: 'Panels' });
  const button = rail.getByRole('button', { name: new RegExp(`^${word}`) });
  if ((await button.getAttribute('aria-expanded')) !== 'true') await button.click();
  await page.getByRole('region', { name: new RegExp(`^${word}`) }).waitFor();
}

/** Goes to a screen by its address, as a link would. */
export async function goTo(page: Page, hash: string): Promise<void> {
  await page.evaluate((to) => {
    location.hash = to;
  }, hash);
}

export interface Place {
  readonly hash: string;
  /** Its heading of the first level. */
  readonly heading: string | RegExp;
}

/** The screens that are there whatever header is in hand. */
export const PLACES = {
  headers: { hash: '#/headers', heading: 'Headers' },
  shelf: { hash: '#/shelf', heading: 'Shelf' },
  archive: { hash: '#/archive', heading: 'Archive' },
  help: { hash: '#/help', heading: /./ },
} as const satisfies Readonly<Record<string, Place>>;

/** Goes to a place and ends once it is there, and not the screen before. */
export async function openPlace(page: Page, { hash, heading }: Place): Promise<void> {
  await goTo(page, hash);
  await page.locator('#screen:not(.bench)').waitFor();
  await page.getByRole('heading', { level: 1, name: heading }).waitFor();
}

/** Goes to a header's bench and ends once that bench is there, and not the one of the header before. */
export async function openBench(page: Page, headerId: string): Promise<void> {
  await goTo(page, `#/bench/${headerId}`);
  await page.locator(`main.bench[data-header="${headerId}"]`).waitFor();
  // Keys are heard from the frame after the one that shows the screen on.
  await framesDrawn(page);
}

/** Runs a command through the search box, as a person without a pointer would. */
export async function command(page: Page, name: string): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.locator('[role="dialog"] input:focus').waitFor();
  await page.keyboard.type(name);
  await page.keyboard.press('Enter');
}

/** Resolves once the page has drawn so many frames; two, and what stands in it now is surely drawn. */
export async function framesDrawn(page: Page, count = 2): Promise<void> {
  await page.evaluate(async (wanted) => {
    for (let drawn = 0; drawn < wanted; drawn += 1) await new Promise((resolve) => requestAnimationFrame(resolve));
  }, count);
}

/** Resolves once letters have their font, nothing moves any more and the page is drawn. */
export async function settled(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await document.fonts.ready;
    const isEnding = (one: Animation) => one.effect?.getComputedTiming().endTime !== Number.POSITIVE_INFINITY;
    await Promise.allSettled(
      document
        .getAnimations()
        .filter(isEnding)
        .map(({ finished }) => finished),
    );
  });
  await framesDrawn(page);
}

/** Puts the demo header and opens it on the bench. */
export async function openDemo(app: AppUnderTest): Promise<string> {
  const { header } = await app.backend.must('createHeader', { name: 'Hill-climb four', from: 'demo' });
  await openBench(app.page, header.id);
  await entryLine(app.page).waitFor();
  return header.id;
}

/** No policy violation, no request to anywhere else, no error in the page. */
export function expectNoFaults({ policyViolations, foreignRequests, pageErrors }: Faults): void {
  expect({ policyViolations, foreignRequests, pageErrors }).toEqual({
    policyViolations: [],
    foreignRequests: [],
    pageErrors: [],
  });
}

/** The text of the file that the page hands over when `act` is done. */
export async function downloadedText(page: Page, act: () => Promise<unknown>): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download'), act()]);
  const parts: Buffer[] = [];
  for await (const part of await download.createReadStream()) parts.push(part as Buffer);
  return Buffer.concat(parts).toString('utf8');
}
