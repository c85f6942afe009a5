/** K2: keys and clicks that jobs of the trade take, counted in the page itself, each against what it may take at most. */

import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { Header } from '../../core/header/header.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { entryLine, expectNoFaults, headerMenu, openDemo } from './page-parts.ts';

let app: AppUnderTest;
let page: Page;
let headerId = '';
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  ({ page } = app);
});
afterAll(async () => await app.end());
beforeEach(async () => {
  headerId = await openDemo(app);
  await page.locator('.bench-stage .view-picture').waitFor();
});
afterEach(() => expectNoFaults(app.faults));

async function stored(): Promise<Header> {
  return (await app.backend.must('openHeader', { headerId })).header;
}

const button = (name: string | RegExp) => page.getByRole('button', { name, exact: true });
const rail = (word: string) =>
  page.getByRole('toolbar', { name: 'Panels' }).getByRole('button', { name: new RegExp(`^${word}`) });

/** Counts what the job takes: a chord is one key, and so is each letter typed; a press of the pointer is one click. */
async function counted(job: string, most: number, act: () => Promise<void>): Promise<void> {
  await page.evaluate(() => {
    const counter = { acts: 0 };
    Object.assign(globalThis, { actCounter: counter });
    const isModifier = (key: string) => ['Control', 'Shift', 'Alt', 'Meta'].includes(key);
    addEventListener(
      'keydown',
      ({ key, repeat }) => {
        if (!repeat && !isModifier(key)) counter.acts += 1;
      },
      { capture: true },
    );
    addEventListener(
      'pointerdown',
      () => {
        counter.acts += 1;
      },
      { capture: true },
    );
  });
  await act();
  const acts = await page.evaluate<number>('actCounter.acts');
  console.log(`K2 ${job}: ${acts} of at most ${most}`);
  expect(acts).toBeGreaterThan(0);
  expect(acts).toBeLessThanOrEqual(most);
}

// A page loaded for each, so that no count is counted twice.
afterEach(async () => await page.reload());

describe('keys and clicks', () => {
  test('a new header comes to its first verdict, all as offered', async () => {
    await counted('new header to its first verdict', 12, async () => {
      await page.keyboard.press('Control+n');
      await page.locator('[role="dialog"] input:focus').waitFor();
      await page.keyboard.press('Enter');
      const ports = page.getByLabel('Ports', { exact: true });
      await expect.poll(() => ports.evaluate((field) => field === document.activeElement)).toBe(true);
      await page.keyboard.press('Enter');
      await expect.poll(() => entryLine(page).evaluate((field) => field === document.activeElement)).toBe(true);
      await page.keyboard.type('35');
      await page.keyboard.press('Enter');
      await page.keyboard.press('PageDown');
      await page.keyboard.type('36');
      await page.keyboard.press('Enter');
      // The longest sets the length, so it is the first one that is judged.
      await page.getByText('1" short').first().waitFor();
    });
  });

  test('a straight goes in after piece 3', async () => {
    await counted('insert a straight after piece 3', 8, async () => {
      await page.locator('[data-row="3"][data-column="2"]').click();
      await page.keyboard.press('Insert');
      await page.keyboard.type('2');
      await page.keyboard.press('Enter');
      await expect
        .poll(async () => (await stored()).primaries[0]?.pieces[3])
        .toMatchObject({ kind: 'straight', length: { value: 2, unit: 'in' } });
    });
  });

  test('six pieces are marked welded', async () => {
    await counted('mark six welded', 4, async () => {
      await page.locator('[data-row="3"].cell-state, [data-row="3"][data-column="6"]').first().click();
      await page
        .locator('[data-row="8"].cell-state, [data-row="8"][data-column="6"]')
        .first()
        .click({ modifiers: ['Shift'] });
      await page.keyboard.press('w');
      await expect
        .poll(async () => (await stored()).primaries[0]?.pieces.slice(3, 9).map(({ state }) => state))
        .toEqual(Array.from({ length: 6 }, () => 'welded'));
    });
  });

  test('the best move is applied', async () => {
    await page.keyboard.press('Alt+3');
    const before = (await stored()).primaries[2];
    await counted('apply the best move', 4, async () => {
      await page.keyboard.press('Alt+m');
      await page.locator('.proposal').first().click();
      await page.keyboard.press('Enter');
      await expect.poll(async () => (await stored()).primaries[2]).not.toEqual(before);
    });
  });

  test('four ports are set by row, and a 4-into-1 by pattern', async () => {
    await counted('four ports and a 4-into-1', 30, async () => {
      await rail('Ports').click();
      await button('Row of ports').click();
      await page.getByLabel(/^Spacing/).click();
      await page.keyboard.press('Control+a');
      await page.keyboard.type('3 3/4');
      await button('Place 4 ports').click();
      await button('Collector by pattern').click();
      await button('Add collector').click();
      await expect
        .poll(async () => (await stored()).primaries.map(({ port }) => port?.at.x.value))
        .toEqual([0, -3.75, -7.5, -11.25]);
      await expect.poll(async () => (await stored()).collectors.at(-1)?.inlets.length).toBe(4);
    });
  });

  test('the worst clash is found and seen', async () => {
    await counted('see the worst clash', 3, async () => {
      await rail('Fit').click();
      const least = page.locator('.gap-head .shape-finding');
      await least.waitFor();
      expect(await least.textContent()).toMatch(/Primary 3 and Primary 4/);
      const box = await least.boundingBox();
      expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThan(768);
      expect(await page.locator('.view-picture').getAttribute('data-gaps')).toBe('1');
    });
  });

  test('a header is finished', async () => {
    await counted('finish', 4, async () => {
      await headerMenu(page, 'Hill-climb four').click();
      await page.getByRole('menuitem', { name: 'Finish' }).click();
      await button('Finish it').click();
      await expect.poll(async () => (await stored()).state).toBe('finished');
    });
  });

  test('a finished one is opened again, mirrored', async () => {
    const { revision, header } = await app.backend.must('openHeader', { headerId });
    const steps = [{ action: 'do' as const, stepId: `finish-${headerId}`, edit: { kind: 'finishHeader' as const } }];
    await app.backend.must('commitSteps', { headerId, baseRevision: revision, steps });
    await page.reload();
    await button('Duplicate').waitFor();
    await counted('reopen a finished one mirrored', 6, async () => {
      await button('Duplicate').click();
      await entryLine(page).waitFor();
      headerId = (await page.locator('main.bench').getAttribute('data-header')) ?? '';
      await rail('Tables').click();
      await page.getByRole('tab', { name: 'Other bank' }).click();
      await page.getByRole('region', { name: 'Mirror' }).getByLabel('All').click();
      await button('Mirror in place').click();
      const mirrored = header.primaries.map(({ port }) => (port === null ? null : -port.at.y.value + 0));
      await expect
        .poll(async () => (await stored()).primaries.map(({ port }) => (port === null ? null : port.at.y.value + 0)))
        .toEqual(mirrored);
    });
  });

  test('the bench is printed', async () => {
    await page.evaluate(() => {
      const printed = { times: 0 };
      Object.assign(globalThis, { printed });
      globalThis.print = () => {
        printed.times += 1;
      };
    });
    await counted('print the bench', 3, async () => {
      await page.keyboard.press('Control+p');
      await expect.poll(() => page.evaluate<number>('printed.times')).toBe(1);
    });
  });

  test('the last five steps are taken back', async () => {
    const before = await stored();
    await entryLine(page).focus();
    for (const length of ['1', '2', '3', '4', '5']) {
      await page.keyboard.type(length);
      await page.keyboard.press('Enter');
    }
    await expect.poll(async () => (await stored()).primaries[0]?.pieces.length).toBe(14);
    await counted('undo the last five', 5, async () => {
      for (let times = 0; times < 5; times += 1) await page.keyboard.press('Control+z');
      await expect.poll(() => stored()).toEqual(before);
    });
  });
});
