/** WCAG 2.2 AA where axe cannot look: each criterion by its number, in a real browser. */

import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { enterLine, entryLine, expectNoFaults, framesDrawn, headerMenu, openDemo, settled } from './page-parts.ts';
import { contrast, pixelsOf } from './picture-pixels.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
});
afterAll(async () => await app.end());
beforeEach(async () => {
  await app.page.setViewportSize({ width: 1366, height: 768 });
  headerId = await openDemo(app);
});
afterEach(async () => {
  await app.page.emulateMedia({ forcedColors: 'none', colorScheme: 'light' });
  expectNoFaults(app.faults);
});

const stored = async () => (await app.backend.must('openHeader', { headerId })).header;
const rail = (page: Page) => page.getByRole('toolbar', { name: 'Panels' });

/** What has the focus, in a word or two. */
const focused = (page: Page) =>
  page.evaluate(() => {
    const at = document.activeElement;
    if (at === null || at === document.body) return 'nothing';
    const part = at.closest('.rail, .bench-panel, .piece-grid, .entry-panel, [role="dialog"], .view-toolbar');
    return part === null ? (at.getAttribute('aria-label') ?? at.tagName) : part.className.toString();
  });

test('2.1.4: no single letter, digit or sign does anything outside grid, board and fields', async () => {
  const { page } = app;
  const before = await stored();
  const hash = await page.evaluate(() => location.hash);
  await rail(page).getByRole('button').first().focus();
  for (const key of 'abcdefghijklmnopqrstuvwxyz0123456789?/.,-=+;[]') await page.keyboard.press(key);
  await framesDrawn(page);
  expect(await page.getByRole('dialog').count()).toBe(0);
  expect(await page.locator('.bench-panel').count()).toBe(0);
  expect(await page.evaluate(() => location.hash)).toBe(hash);
  expect(await stored()).toEqual(before);
});

describe('2.4.3: the focus', () => {
  test('goes into a panel that is opened, and Escape takes it back to its button', async () => {
    const { page } = app;
    const buttons = rail(page).getByRole('button');
    const count = await buttons.count();
    expect(count).toBeGreaterThan(5);
    for (let index = 0; index < count; index += 1) {
      const button = buttons.nth(index);
      await button.focus();
      await page.keyboard.press('Enter');
      await expect.poll(() => focused(page)).toContain('bench-panel');
      await page.keyboard.press('Escape');
      await expect.poll(() => button.evaluate((element) => element === document.activeElement)).toBe(true);
      if ((await button.getAttribute('aria-expanded')) === 'true') await page.keyboard.press('Enter');
    }
  });

  test('stays with the pieces when one is removed, the last one as well', async () => {
    const { page } = app;
    for (const row of [0, 7]) {
      await page.locator(`[data-row="${row}"][data-column="2"]`).focus();
      await page.keyboard.press('Control+Delete');
      await framesDrawn(page);
      expect(await focused(page)).not.toBe('nothing');
    }
  });

  test('comes back to the menu from a dialog that it opened', async () => {
    const { page } = app;
    await page.keyboard.press('Control+k');
    await page.locator('[role="dialog"] input:focus').waitFor();
    await page.keyboard.press('Escape');
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
    await expect.poll(() => focused(page)).not.toBe('nothing');
  });
});

test('3.3.1: what cannot be read says so in sight, beside its field, and what was typed stays', async () => {
  const { page } = app;
  for (const height of [768, 500]) {
    await page.setViewportSize({ width: 1366, height });
    await entryLine(page).focus();
    await entryLine(page).fill('');
    await enterLine(page, 'b90 4x');
    const described = await entryLine(page).getAttribute('aria-describedby');
    const words = await page.evaluate(
      (ids) =>
        (ids ?? '')
          .split(' ')
          .map((id) => document.getElementById(id)?.textContent ?? '')
          .join(' '),
      described,
    );
    expect(words).toContain('4x');
    const box = await page.locator('.entry-panel .field-problem').first().boundingBox();
    expect((box?.y ?? Number.POSITIVE_INFINITY) + (box?.height ?? 0)).toBeLessThanOrEqual(height);
    expect(await entryLine(page).inputValue()).toBe('b90 4x');
    expect(await entryLine(page).getAttribute('aria-invalid')).toBe('true');
  }
  await entryLine(page).fill('');
});

/** Of every row of pixels where it first meets a tube, from the left and from the right: the contrast of the line that it crosses there. */
async function silhouetteContrasts(page: Page): Promise<readonly number[]> {
  await page.evaluate(() => {
    for (const svg of document.querySelectorAll<SVGElement>('.solid-view > svg')) svg.style.visibility = 'hidden';
  });
  const decoder = await app.context.newPage();
  const { width, height, at } = await pixelsOf(page.locator('.view-picture'), decoder);
  await decoder.close();
  const page0 = at(2, 2);
  const isPage = (x: number, y: number) => contrast(at(x, y), page0) < 1.02;
  const found: number[] = [];
  for (let y = 4; y < height - 4; y += 1) {
    for (const [edge, step] of [
      [4, 1],
      [width - 5, -1],
    ] as const) {
      let x = edge;
      while (x >= 4 && x < width - 4 && isPage(x, y)) x += step;
      if (x < 4 || x >= width - 4) continue;
      found.push(Math.max(...[0, 1, 2, 3].map((further) => contrast(at(x + further * step, y), page0))));
    }
  }
  return found;
}

describe('1.4.11: tubes stand out from the page by a line of 3:1', () => {
  test.each([
    ['light', { colorScheme: 'light' }],
    ['dark', { colorScheme: 'dark' }],
    ['forced colours', { forcedColors: 'active' }],
  ] as const)('%s', async (_name, media) => {
    const { page } = app;
    await page.emulateMedia(media);
    await page.locator('.solid-canvas[data-frames]').waitFor({ state: 'attached' });
    await settled(page);
    const found = await silhouetteContrasts(page);
    expect(found.length).toBeGreaterThan(100);
    // Ends of tubes seen along their axis, and lines that other tubes cross, make the rest.
    const weak = found.filter((ratio) => ratio < 3).length;
    expect(weak / found.length).toBeLessThan(0.05);
  });
});

/** What is wider than the page, in words. */
const wider = (page: Page) =>
  page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.scrollingElement ?? document.documentElement;
    return scrollWidth > clientWidth + 1 ? `${scrollWidth} in ${clientWidth}` : '';
  });

/** Buttons, links and fields that no scrolling of the page brings into sight. */
const outOfReach = (page: Page) =>
  page.evaluate(() => {
    const all = [
      ...document.querySelectorAll<HTMLElement>('main button, main input:not([type="hidden"]), nav a, header button'),
    ];
    return all
      .filter((element) => element.checkVisibility({ visibilityProperty: true }))
      .filter((element) => {
        element.scrollIntoView({ block: 'center', inline: 'center' });
        const { left, right, width, top, bottom } = element.getBoundingClientRect();
        return width > 1 && (left < -1 || right > innerWidth + 1 || top < -1 || bottom > innerHeight + 1);
      })
      .map((element) => element.getAttribute('aria-label') ?? element.textContent?.trim() ?? element.tagName);
  });

/** Words at the bars of the board that the edge of their place cuts off. */
const cutWords = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('.board-words')]
      .filter((words) => {
        const box = words.getBoundingClientRect();
        const place = (words.closest('.board-track') ?? words).getBoundingClientRect();
        return box.left < place.left - 1 || box.right > place.right + 1 || words.scrollHeight > words.clientHeight + 2;
      })
      .map((words) => words.textContent),
  );

describe('1.4.4 and 1.4.10: at', () => {
  test.each([
    ['200 % of 1366 x 768', 683, 384],
    ['400 % of 1280 x 1024', 320, 256],
    ['320 px wide', 320, 640],
  ] as const)('%s all is there, in one column, and nothing scrolls sideways', async (_name, width, height) => {
    const { page } = app;
    await page.setViewportSize({ width, height });
    await settled(page);
    expect(await wider(page)).toBe('');
    expect(await outOfReach(page)).toEqual([]);
    expect(await cutWords(page)).toEqual([]);
    await entryLine(page).scrollIntoViewIfNeeded();
    await entryLine(page).fill('1 1/2');
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await stored()).primaries[0]?.pieces.length).toBe(10);
  });
});

test('1.4.12: with text spaced out as far as the criterion asks no word is cut off', async () => {
  const { page } = app;
  await page.evaluate(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(`* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; }
      p { margin-block-end: 2em !important; }`);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  });
  await settled(page);
  const cut = await page.evaluate(() => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.slice();
    const all = [...document.querySelectorAll<HTMLElement>('body *')].filter(
      (element) =>
        element.checkVisibility() &&
        !element.classList.contains('visually-hidden') &&
        ['hidden', 'clip'].includes(getComputedStyle(element).overflowX) &&
        element.title === '' &&
        [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== ''),
    );
    return all
      .filter(
        (element) => element.scrollWidth > element.clientWidth + 1 || element.scrollHeight > element.clientHeight + 2,
      )
      .map((element) => `${element.className}: ${element.textContent}`);
  });
  expect(cut).toEqual([]);
  expect(await wider(page)).toBe('');
  await page.reload();
});

test('2.4.6: every panel has a heading that says what it is, and no heading is empty', async () => {
  const { page } = app;
  for (const button of await rail(page).getByRole('button').all()) {
    const word = ((await button.textContent()) ?? '').trim();
    await button.click();
    const panel = page.locator('.bench-panel');
    await panel.waitFor();
    const headings = await panel.getByRole('heading').allInnerTexts();
    expect(headings[0]).toContain(word);
    expect(headings.filter((text) => text.trim() === '')).toEqual([]);
    await button.click();
  }
});

test('the rail and the stage are one tab stop each', async () => {
  const { page } = app;
  await page.locator('.view-toolbar').waitFor();
  for (const toolbar of [rail(page), page.getByRole('toolbar', { name: 'Stage' })]) {
    await toolbar.getByRole('button').first().focus();
    await page.keyboard.press('Tab');
    expect(await toolbar.evaluate((element) => element.contains(document.activeElement))).toBe(false);
  }
});

test('the save mark is silent while all is saved, and undo says what it took back', async () => {
  const { page } = app;
  expect(await page.locator('[data-save]').getAttribute('role')).toBeNull();
  await entryLine(page).focus();
  await enterLine(page, '2 1/4');
  await page.locator('[data-save="saved"]').waitFor();
  await page.keyboard.press('Control+z');
  await expect
    .poll(() => page.getByRole('status').allInnerTexts())
    .toContainEqual(expect.stringMatching(/^Undone: add straight/));
  await headerMenu(page, 'Hill-climb four').waitFor();
});
