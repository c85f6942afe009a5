/** What stands on the bench together, and who gives room to whom: measured from boxes in the page as it is built. */

import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { newHeader } from '../../core/index.ts';
import { largeHeader } from '../bench/large-header.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { largestBlank } from './blank-area.ts';
import { entryLine, expectNoFaults, openBench, openPanel, openPlace, PLACES, settled } from './page-parts.ts';
import { type Furnished, furnish } from './screens.ts';
import { still } from './shape-parts.ts';

let app: AppUnderTest;
let page: Page;
let ids: Furnished;
let largeId = '';

beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  ({ page } = app);
  ids = await furnish(app.backend);
  const large = largeHeader(newHeader({ id: 'eight-by-twelve', name: 'Eight by twelve' }));
  const primaries = large.primaries.map((primary) => ({ ...primary, pieces: primary.pieces.slice(0, 12) }));
  largeId = (await app.backend.must('importHeader', { header: { ...large, primaries } })).header.id;
});
afterAll(async () => await app.end());
afterEach(() => expectNoFaults(app.faults));

interface Looks {
  readonly width: number;
  readonly height: number;
  readonly density: 'bench' | 'desk';
}

async function show(headerId: string, { width, height, density }: Looks): Promise<void> {
  await page.setViewportSize({ width, height });
  await app.backend.must('savePreferences', { preferences: { theme: 'light', density, sizes: {} } });
  await page.goto('about:blank');
  await page.goto(app.host.address);
  await openBench(page, headerId);
  await page.locator('.bench-stage .view-picture').waitFor();
  await settled(page);
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly right: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
}

async function boxOf(selector: string): Promise<Box> {
  const box = await page.locator(selector).first().boundingBox();
  if (box === null) throw new Error(`${selector} is not in sight`);
  return { ...box, right: box.x + box.width, bottom: box.y + box.height };
}

const BOARD = '.bench-match';
const STAGE = '.bench-stage';
const PIECES = '.bench-primary';
const ENTRY = '.entry-field';
const PANEL = '.bench-panel';
const SMALL: Looks = { width: 1366, height: 768, density: 'desk' };
const LARGE: Looks = { width: 1920, height: 1080, density: 'desk' };

/** How many of the rows stand wholly within their frame and the window. */
async function rowsWithin(rows: string, frame: string): Promise<number> {
  const within = await boxOf(frame);
  const { height } = page.viewportSize() ?? { height: 0 };
  const boxes = await page.locator(rows).evaluateAll((found) =>
    found.map((row) => {
      const { top, bottom } = row.getBoundingClientRect();
      return { top, bottom };
    }),
  );
  return boxes.filter(({ top, bottom }) => top >= within.y - 0.5 && bottom <= Math.min(within.bottom, height) + 0.5)
    .length;
}

describe('the places', () => {
  test.each([SMALL, { ...SMALL, density: 'bench' as const }, LARGE])(
    'stand still from screen to screen, in %o',
    async (looks) => {
      await show(ids.openId, looks);
      const lefts = [(await boxOf('.bar-places')).x];
      for (const place of ['headers', 'shelf', 'archive'] as const) {
        await openPlace(page, PLACES[place]);
        lefts.push((await boxOf('.bar-places')).x);
      }
      // A scroll bar and the bold letters of the place in hand take some.
      expect(Math.max(...lefts) - Math.min(...lefts)).toBeLessThanOrEqual(10);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(
        0,
      );
    },
  );
});

describe('V1: at 1366 x 768 in desk size', () => {
  beforeAll(async () => await show(largeId, SMALL));

  test('8 primaries, 12 pieces, a stage of 360 px, the entry line and the total stand in sight at once', async () => {
    const seen = {
      primaries: await rowsWithin(`${BOARD} [role="option"]`, BOARD),
      pieces: await rowsWithin('.piece-grid tbody tr[aria-rowindex]', '.grid-frame'),
      stagePx: Math.round((await boxOf(STAGE)).height),
      entryBottomPx: Math.round((await boxOf(ENTRY)).bottom),
      totalBottomPx: Math.round((await boxOf('.primary-length')).bottom),
    };
    console.log('V1', JSON.stringify(seen));
    expect(seen.primaries).toBe(8);
    expect(seen.pieces).toBeGreaterThanOrEqual(12);
    expect(seen.stagePx).toBeGreaterThanOrEqual(360);
    expect(seen.entryBottomPx).toBeLessThanOrEqual(768);
    expect(seen.totalBottomPx).toBeLessThanOrEqual(768);
  });

  test('no part lies over another, and nothing scrolls but the parts themselves', async () => {
    const boxes = await Promise.all(['.rail', BOARD, STAGE, PIECES].map(boxOf));
    for (const [index, one] of boxes.entries()) {
      for (const other of boxes.slice(index + 1)) {
        const isApart =
          one.right <= other.x + 0.5 ||
          other.right <= one.x + 0.5 ||
          one.bottom <= other.y + 0.5 ||
          other.bottom <= one.y + 0.5;
        expect(isApart).toBe(true);
      }
    }
    const overflow = await page.evaluate(() => document.documentElement.scrollHeight - innerHeight);
    expect(overflow).toBeLessThanOrEqual(0);
  });
});

describe('V2: at 1920 x 1080 no blank area takes more than 15 % of the window', () => {
  test.each(['eight primaries', 'the demo header', 'the demo header with a panel'])('%s', async (which) => {
    await show(which === 'eight primaries' ? largeId : ids.openId, LARGE);
    if (which.endsWith('panel')) await openPanel(page, 'Settings');
    await still(page);
    const blank = await largestBlank(page);
    console.log('V2', which, JSON.stringify(blank));
    expect(blank.share).toBeLessThanOrEqual(0.15);
  });
});

describe('a panel', () => {
  beforeEach(async () => await show(ids.openId, SMALL));

  test('takes room from the stage alone, is 330 px wide, and 400 px in a wide window', async () => {
    const before = await Promise.all([BOARD, PIECES, ENTRY].map(boxOf));
    const stage = await boxOf(STAGE);
    await openPanel(page, 'Settings');
    expect(await Promise.all([BOARD, PIECES, ENTRY].map(boxOf))).toEqual(before);
    const panel = await boxOf(PANEL);
    expect(Math.round(panel.width)).toBe(330);
    const narrowed = await boxOf(STAGE);
    expect(narrowed.right).toBeCloseTo(stage.right, 0);
    expect(narrowed.x).toBeGreaterThanOrEqual(panel.right);
    await page.setViewportSize({ width: 1920, height: 1080 });
    expect(Math.round((await boxOf(PANEL)).width)).toBe(400);
  });

  test('is gone into when it opens, Escape goes back to its button on the rail, and only one is open', async () => {
    const focused = () => page.evaluate(() => document.activeElement?.id ?? '');
    for (const word of ['Fit', 'Ports', 'Settings']) {
      await openPanel(page, word);
      expect(await focused()).toBe('bench-panel');
      expect(await page.locator(PANEL).count()).toBe(1);
      await page.keyboard.press('Escape');
      expect(await focused()).toBe(`rail-${word.toLowerCase()}`);
    }
    await page.keyboard.press('Enter');
    await page.locator(PANEL).waitFor({ state: 'detached' });
    expect(await focused()).toBe('rail-settings');
    await page.keyboard.press('Alt+m');
    expect(await focused()).toBe('bench-panel');
    await page.keyboard.press('Alt+m');
    await expect.poll(focused).toBe('rail-moves');
  });

  test('comes after the rail in the order of the focus, and the rail is one stop', async () => {
    await openPanel(page, 'Settings');
    const places: string[] = [];
    await page.getByRole('toolbar', { name: 'Panels' }).getByRole('button', { name: 'Moves' }).focus();
    const placeInHand = () =>
      page.evaluate(() => {
        const place = document.activeElement?.closest(
          '.rail, .bench-match, .bench-panel, .bench-stage, .bench-primary',
        );
        return place?.classList[0] ?? 'elsewhere';
      });
    places.push(await placeInHand());
    for (let presses = 0; presses < 120 && places.at(-1) !== 'bench-primary'; presses += 1) {
      await page.keyboard.press('Tab');
      const place = await placeInHand();
      if (place !== 'elsewhere' && (place !== places.at(-1) || place === 'rail')) places.push(place);
    }
    expect(places).toEqual(['rail', 'bench-match', 'bench-panel', 'bench-stage', 'bench-primary']);
  });

  test('its width, the board and the pieces are dragged, moved by key, and kept over a reload, and back at the usual size by a double click', async () => {
    await openPanel(page, 'Settings');
    const edge = page.getByRole('separator', { name: 'Width of the panel' });
    const drag = async (name: string, by: { readonly x: number; readonly y: number }) => {
      const box = await page.getByRole('separator', { name }).boundingBox();
      if (box === null) throw new Error(`${name} has no place`);
      const from = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
      await page.mouse.move(from.x, from.y);
      await page.mouse.down();
      await page.mouse.move(from.x + by.x, from.y + by.y, { steps: 4 });
      await page.mouse.up();
    };
    await drag('Width of the panel', { x: 50, y: 0 });
    expect((await boxOf(PANEL)).width).toBeCloseTo(380, 0);
    await edge.focus();
    await page.keyboard.press('ArrowLeft');
    expect((await boxOf(PANEL)).width).toBeCloseTo(364, 0);
    expect(await edge.getAttribute('aria-valuenow')).toBe('364');
    // Kept from one start to the next.
    await page.reload();
    await page.locator(STAGE).waitFor();
    await openPanel(page, 'Settings');
    expect((await boxOf(PANEL)).width).toBeCloseTo(364, 0);
    const [board, pieces] = [await boxOf(BOARD), await boxOf(PIECES)];
    await drag('Height of the board', { x: 0, y: 40 });
    expect((await boxOf(BOARD)).height).toBeCloseTo(board.height + 40, 0);
    await drag('Width of the pieces', { x: -60, y: 0 });
    expect((await boxOf(PIECES)).width).toBeCloseTo(pieces.width + 60, 0);
    for (const name of ['Width of the panel', 'Height of the board', 'Width of the pieces'])
      await page.getByRole('separator', { name }).dblclick();
    expect((await boxOf(PANEL)).width).toBeCloseTo(330, 0);
    expect(await boxOf(BOARD)).toEqual(board);
  });
});

describe('where there is less room', () => {
  test.each([
    ['desk', 1024],
    ['bench', 1024],
  ] as const)('in %s size at %i px stage and panel are tabs, and every panel has height', async (density, width) => {
    await show(ids.openId, { width, height: 768, density });
    const words = await page.getByRole('toolbar', { name: 'Panels' }).getByRole('button').allTextContents();
    expect(words).toHaveLength(10);
    for (const word of words) {
      await openPanel(page, word);
      expect((await boxOf(PANEL)).height).toBeGreaterThanOrEqual(200);
      expect(await page.locator(STAGE).isVisible()).toBe(false);
      const [panel, board, pieces] = [await boxOf(PANEL), await boxOf(BOARD), await boxOf(PIECES)];
      expect(panel.y).toBeGreaterThanOrEqual(board.bottom);
      expect(panel.right).toBeLessThanOrEqual(pieces.x);
    }
    await page.getByRole('radio', { name: 'Stage' }).click();
    expect(await page.locator(PANEL).isVisible()).toBe(false);
    expect((await boxOf(STAGE)).height).toBeGreaterThanOrEqual(200);
  });

  test('the rail of touch size is 72 px wide with targets of 56 px', async () => {
    await show(ids.openId, { width: 1366, height: 768, density: 'bench' });
    expect((await boxOf('.rail')).width).toBe(72);
    const heights = await page.locator('.rail-button').evaluateAll((found) => found.map((one) => one.clientHeight));
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(56);
  });

  test('in touch size at 1366 px an open panel leaves the stage 360 px, with its buttons all in sight', async () => {
    await show(ids.openId, { width: 1366, height: 768, density: 'bench' });
    await openPanel(page, 'Settings');
    expect((await boxOf(STAGE)).width).toBeGreaterThanOrEqual(360);
    const toolbar = page.getByRole('toolbar', { name: 'Stage' });
    expect(await toolbar.evaluate((bar) => bar.scrollWidth - bar.clientWidth)).toBeLessThanOrEqual(0);
    await toolbar.getByRole('button', { name: 'View and zoom' }).click();
    await page.getByRole('menuitem', { name: 'Top' }).click();
    await expect.poll(() => page.locator('.view-picture').getAttribute('data-elevation')).toBe('90');
  });

  test.each(['bench', 'desk'] as const)('at 400 px in %s size the grid has all of its columns', async (density) => {
    await show(ids.openId, { width: 400, height: 800, density });
    const grid = await boxOf('.piece-grid');
    const frame = await boxOf('.grid-frame');
    expect(grid.right).toBeLessThanOrEqual(frame.right + 0.5);
    for (const cell of ['run', 'state']) {
      const box = await boxOf(`.piece-grid td.cell-${cell}`);
      expect(box.right).toBeLessThanOrEqual(400);
    }
    // No figure is cut at the edge of its cell.
    const cut = await page
      .locator('.piece-grid td:is(.cell-size, .cell-clr, .cell-clock, .cell-run)')
      .evaluateAll((cells) =>
        cells.filter((cell) => cell.scrollWidth > cell.clientWidth + 1).map((cell) => cell.textContent),
      );
    expect(cut).toEqual([]);
  });

  test.each([
    ['200', 683, 384],
    ['400', 342, 192],
  ] as const)(
    'at %s percent all parts stand in one column, none wider than the window',
    async (_zoom, width, height) => {
      await show(ids.openId, { width, height, density: 'desk' });
      await openPanel(page, 'Settings');
      const parts = ['.rail', BOARD, PANEL, PIECES];
      for (const part of parts) {
        const { x, right } = await boxOf(part);
        expect(x).toBeGreaterThanOrEqual(0);
        expect(right).toBeLessThanOrEqual(width + 0.5);
      }
      await page.getByRole('radio', { name: 'Stage' }).click();
      expect((await boxOf(STAGE)).height).toBeGreaterThanOrEqual(200);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    },
  );
});

test('what is typed right after the key of the entry line lands in it whole, from the grid and from a panel', async () => {
  await show(ids.openId, SMALL);
  const starts = [
    () => page.locator('[data-row="1"][data-column="2"]').focus(),
    () => openPanel(page, 'Settings'),
    () => page.getByLabel(/^Usual CLR/).focus(),
  ];
  const pieces = await page.locator('.piece-grid tbody tr[aria-rowindex]').allInnerTexts();
  for (const start of starts) {
    await start();
    await page.keyboard.press('Control+e');
    await page.keyboard.type('b45 90');
    expect(await entryLine(page).inputValue()).toBe('b45 90');
    await entryLine(page).fill('');
  }
  expect(await page.locator('.piece-grid tbody tr[aria-rowindex]').allInnerTexts()).toEqual(pieces);
});
