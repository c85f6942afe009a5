/** What the bench shows at once: the bar on one line, and enough rows of the chart and of the pieces to work by. */

import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Header } from '../../core/header/header.ts';
import { largeHeader } from '../bench/large-header.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { goTo } from './page-parts.ts';
import { type Furnished, furnish } from './screens.ts';

type Density = 'bench' | 'desk';
/** A line of the bar is as high as a target, with its lower edge. */
const BAR_PX = { bench: 57, desk: 33 } as const;

let app: AppUnderTest;
let ids: Furnished;
let largeId = '';

/** Eight primaries of ten pieces, under the longest name there can be. */
function eightByTen(base: Header): Header {
  const large = largeHeader(base);
  const primaries = large.primaries.map((primary) => ({ ...primary, pieces: primary.pieces.slice(0, 10) }));
  return { ...large, name: 'Eight primaries of ten '.repeat(6).slice(0, 120), primaries };
}

beforeAll(async () => {
  app = await launchApp();
  ids = await furnish(app.backend);
  const blank = await app.backend.must('createHeader', { name: 'Blank', from: 'blank' });
  largeId = (await app.backend.must('importHeader', { header: eightByTen(blank.header) as never })).header.id;
});
afterAll(async () => await app.end());

async function show(headerId: string, density: Density, hasPieceInHand = false): Promise<void> {
  const { page, backend } = app;
  await backend.must('savePreferences', { preferences: { theme: 'light', density } });
  await goTo(page, `#/bench/${headerId}`);
  await page.reload();
  await page.locator('main.bench .piece-grid tbody tr').first().waitFor();
  if (hasPieceInHand) await page.locator('.piece-grid [data-row="1"][data-column="2"]').click();
  await page.evaluate(() => document.fonts.ready);
}

/** Rows wholly within what frames them, before anything is scrolled. */
async function rowsShown(rows: string, frame: string): Promise<number> {
  return await app.page.evaluate(
    ([wanted, within]) => {
      const box = document.querySelector(within)?.getBoundingClientRect();
      if (box === undefined) return 0;
      const bottom = Math.min(box.bottom, innerHeight);
      return [...document.querySelectorAll(wanted)]
        .map((row) => row.getBoundingClientRect())
        .filter((row) => row.top >= box.top - 0.5 && row.bottom <= bottom + 0.5).length;
    },
    [rows, frame] as const,
  );
}

const piecesShown = () => rowsShown('.piece-grid tbody tr[aria-rowindex]', '.grid-frame');
const primariesShown = () => rowsShown('.bench-match [role="option"]', '.bench-match');
const heightOf = async (selector: string) => (await app.page.locator(selector).boundingBox())?.height ?? 0;

describe.each([
  ['1366 x 768', 1366, 768],
  ['1920 x 1080', 1920, 1080],
] as const)('in a window of %s', (_name, width, height) => {
  beforeAll(async () => await app.page.setViewportSize({ width, height }));

  test('bench density shows six pieces and more, with a bar and buttons of one line', async () => {
    await show(largeId, 'bench', true);
    expect(await piecesShown()).toBeGreaterThanOrEqual(6);
    expect(await heightOf('.bar')).toBeLessThanOrEqual(BAR_PX.bench);
    expect(await heightOf('.piece-buttons')).toBeLessThanOrEqual(57);
  });

  test('desk density shows eight primaries and ten pieces', async () => {
    await show(largeId, 'desk', true);
    expect(await piecesShown()).toBe(10);
    expect(await primariesShown()).toBe(8);
    expect(await heightOf('.bar')).toBeLessThanOrEqual(BAR_PX.desk);
  });

  test.each(['bench', 'desk'] as const)(
    'a finished header shows as much under its note in %s density',
    async (density) => {
      await show(ids.finishedId, density);
      expect(await heightOf('.frozen')).toBeLessThanOrEqual(BAR_PX[density]);
      expect(await piecesShown()).toBeGreaterThanOrEqual(6);
      expect(await primariesShown()).toBe(4);
    },
  );
});
