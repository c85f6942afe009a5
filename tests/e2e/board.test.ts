/** The match board in a real page: what each row shows, what is done with rows, by keyboard and by pointer. */

import type { Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { removePiecesEdit } from '../../core/edits/piece-edits.ts';
import { setStateEdit } from '../../core/edits/piece-state-edits.ts';
import { DISPLAY_CHOICES } from '../../renderer/bench/panels/setting-choices.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { entryLine, expectNoFaults, openBench, settled } from './page-parts.ts';

let app: AppUnderTest;
let page: Page;
let headerId = '';

beforeAll(async () => {
  app = await launchApp();
  ({ page } = app);
  await page.setViewportSize({ width: 1366, height: 768 });
});
afterAll(async () => await app.end());
afterEach(() => expectNoFaults(app.faults));
beforeEach(async () => {
  await app.backend.must('savePreferences', { preferences: { theme: 'light', density: 'desk' } });
  headerId = (await app.backend.must('createHeader', { name: 'Board four', from: 'demo' })).header.id;
  await page.goto('about:blank');
  await page.goto(app.host.address);
  await openBench(page, headerId);
  await settled(page);
});

const rows = () => page.locator('.board-row');
const row = (id: string) => page.locator(`.board-row[data-primary="${id}"]`);
const names = async () =>
  (await app.backend.must('openHeader', { headerId })).header.primaries.map((primary) => primary.name);
const ids = () => rows().evaluateAll((found) => found.map((one) => one.getAttribute('data-primary')));
const focusedRow = () => page.evaluate(() => document.activeElement?.getAttribute('data-primary') ?? null);

async function box(of: Locator) {
  const found = await of.boundingBox();
  if (found === null) throw new Error('it is not in sight');
  return found;
}

describe('a row', () => {
  test('says how its primary stands, with a verdict only for what is judged', async () => {
    expect(
      await rows().evaluateAll((found) => found.map((one) => one.querySelector('.board-now')?.textContent)),
    ).toEqual(['● OK, −1/16"', '▶ 1/4" long', '◀ 3/16" short', 'sets the length']);
    expect(await row('primary-3').locator('.bar-hollow').count()).toBe(0);
    expect(await row('primary-3').locator('[data-verdict="short"] .bar-judged').count()).toBe(1);
    expect(await row('primary-2').locator('[data-verdict="long"] .bar-judged').count()).toBe(1);
  });

  test('whose last piece is only planned is still being built: hollow, to go, and without a verdict', async () => {
    const { header, revision } = await app.backend.must('openHeader', { headerId });
    const third = header.primaries[2];
    const edit = third === undefined ? null : setStateEdit(third, third.pieces.slice(-1), 'planned');
    if (edit === null) throw new Error('its last piece cannot be planned');
    const steps = [{ action: 'do' as const, stepId: 'plan-the-last', edit }];
    await app.backend.must('commitSteps', { headerId, baseRevision: revision, steps });
    await page.goto('about:blank');
    await page.goto(app.host.address);
    await openBench(page, headerId);
    await expect.poll(() => row('primary-3').locator('.board-now').textContent()).toBe('to go 3/16"');
    expect(await row('primary-3').locator('.bar-hollow').count()).toBe(1);
    expect(await row('primary-3').locator('[data-verdict="short"]').count()).toBe(0);
  });

  test('that has feet to go says so within its own scale, in desk and in bench size', async () => {
    const { header, revision } = await app.backend.must('openHeader', { headerId });
    const third = header.primaries[2];
    const pieceIds = third?.pieces.slice(2).map(({ id }) => id) ?? [];
    const edit = third === undefined ? null : removePiecesEdit(third, pieceIds);
    if (edit === null) throw new Error('its pieces cannot be removed');
    const steps = [{ action: 'do' as const, stepId: 'take-off-most', edit }];
    await app.backend.must('commitSteps', { headerId, baseRevision: revision, steps });
    for (const density of ['desk', 'bench'] as const) {
      await app.backend.must('savePreferences', { preferences: { theme: 'light', density } });
      await page.goto('about:blank');
      await page.goto(app.host.address);
      await openBench(page, headerId);
      await row('primary-3').click({ position: { x: 20, y: 8 } });
      await settled(page);
      expect(await row('primary-3').locator('.board-now').textContent()).toMatch(/^to go \d\d \d+\/16"$/);
      for (const id of ['primary-1', 'primary-2', 'primary-3', 'primary-4']) {
        const [words, track] = [await box(row(id).locator('.board-now')), await box(row(id).locator('.board-track'))];
        expect(words.x, `${density}, ${id}`).toBeGreaterThanOrEqual(track.x);
        expect(words.x + words.width, `${density}, ${id}`).toBeLessThanOrEqual(track.x + track.width + 0.5);
      }
    }
  });

  test('copies its figures with a plain space, and names them so to those who listen', async () => {
    const text = await row('primary-1').textContent();
    expect(text).toContain('Primary 1: 35\u20093/16"');
    const heading = await page.locator('.primary-length').textContent();
    expect(heading).toBe('35 3/16"');
    expect(
      await page
        .locator('.primary-length .fraction')
        .evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize)),
    ).toBeLessThan(
      await page.locator('.primary-length').evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize)),
    );
  });

  test('of the primary in hand shows all its pieces; a click on one takes it in hand', async () => {
    await row('primary-3').click({ position: { x: 20, y: 8 } });
    expect(await page.locator('.strip').count()).toBe(1);
    const strip = row('primary-3').locator('.strip');
    await strip.locator('.segment-run').click({ position: { x: 10, y: 8 } });
    await expect.poll(() => page.locator('.piece-grid tr[aria-selected="true"]').count()).toBe(1);
  });
});

describe('the scale', () => {
  test.each(DISPLAY_CHOICES.map(({ id, style }) => [id, style] as const))(
    'in %s has labels that do not meet, and every figure at a bar stands within the board',
    async (_id, style) => {
      const { header } = await app.backend.must('openHeader', { headerId });
      const shown = { ...header, id: `shown-${_id}`, settings: { ...header.settings, display: style } };
      const imported = await app.backend.must('importHeader', { header: shown });
      await openBench(page, imported.header.id);
      await settled(page);
      const labels = await page.locator('.board-axis text').evaluateAll((found) =>
        found
          .map((label) => label.getBoundingClientRect())
          .map(({ left, right }) => ({ left, right }))
          .sort((a, b) => a.left - b.left),
      );
      expect(labels.length).toBeGreaterThan(2);
      for (const [index, { left }] of labels.entries()) expect(left).toBeGreaterThan(labels[index - 1]?.right ?? 0);
      const track = await box(page.locator('.board-row .board-track').first());
      for (const words of await page.locator('.board-now').all()) {
        const { x, width } = await box(words);
        expect(x).toBeGreaterThanOrEqual(track.x);
        expect(x + width).toBeLessThanOrEqual(track.x + track.width);
      }
    },
  );
});

describe('rows', () => {
  test('are one tab stop, gone through by the arrow keys', async () => {
    await row('primary-1').focus();
    await page.keyboard.press('ArrowDown');
    expect(await focusedRow()).toBe('primary-2');
    await page.keyboard.press('End');
    expect(await focusedRow()).toBe('primary-4');
    await page.keyboard.press('Tab');
    expect(await focusedRow()).toBeNull();
    expect(await rows().evaluateAll((found) => found.filter((one) => (one as HTMLElement).tabIndex === 0).length)).toBe(
      1,
    );
  });

  test('are renamed by F2, by a double click and from the menu, where they stand', async () => {
    await row('primary-1').focus();
    await page.keyboard.press('F2');
    await page.keyboard.type('Left front');
    await page.keyboard.press('Enter');
    await expect.poll(names).toEqual(['Left front', '2', '3', '4']);
    await expect.poll(focusedRow).toBe('primary-1');
    await row('primary-3').dblclick({ position: { x: 20, y: 8 } });
    await page.keyboard.type('Right rear');
    await page.keyboard.press('Escape');
    await row('primary-3').click({ button: 'right', position: { x: 20, y: 8 } });
    await page.getByRole('menuitem', { name: 'Rename' }).click();
    await page.keyboard.type('3b');
    await page.keyboard.press('Enter');
    await expect.poll(names).toEqual(['Left front', '2', '3b', '4']);
  });

  test('are put in another order by Alt and an arrow, and keep the focus', async () => {
    await row('primary-1').focus();
    await page.keyboard.press('Alt+ArrowDown');
    await expect.poll(names).toEqual(['2', '1', '3', '4']);
    await expect.poll(focusedRow).toBe('primary-1');
    await page.keyboard.press('Alt+ArrowDown');
    await expect.poll(names).toEqual(['2', '3', '1', '4']);
    await page.keyboard.press('Alt+ArrowUp');
    await expect.poll(names).toEqual(['2', '1', '3', '4']);
  });

  test('are dragged by their names', async () => {
    const from = await box(row('primary-2').locator('.board-name'));
    const to = await box(row('primary-4'));
    await page.mouse.move(from.x + 10, from.y + from.height / 2);
    await page.mouse.down();
    await page.mouse.move(from.x + 10, to.y + 4, { steps: 6 });
    await page.mouse.move(from.x + 10, to.y + to.height - 4, { steps: 3 });
    await page.locator('.board-rows[data-drop]').waitFor();
    await page.mouse.up();
    await expect.poll(names).toEqual(['1', '3', '4', '2']);
    expect(await page.evaluate(() => getSelection()?.toString() ?? '')).toBe('');
  });

  test('are copied, removed and added, and the focus is never lost', async () => {
    await row('primary-2').click({ position: { x: 20, y: 8 } });
    await page.getByRole('button', { name: 'More for Primary 2' }).click();
    await page.getByRole('menuitem', { name: 'Duplicate' }).click();
    await expect.poll(() => rows().count()).toBe(5);
    await row('primary-2').click({ button: 'right', position: { x: 20, y: 8 } });
    await page.getByRole('menuitem', { name: 'Delete' }).click();
    await expect.poll(() => rows().count()).toBe(4);
    await expect.poll(async () => (await ids()).includes((await focusedRow()) ?? '')).toBe(true);
    await page.getByRole('button', { name: '+ Add primary', exact: true }).click();
    await expect.poll(() => rows().count()).toBe(5);
    // Its first piece is what comes next.
    await expect.poll(() => entryLine(page).evaluate((field) => field === document.activeElement)).toBe(true);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await expect.poll(() => row('primary-2').count()).toBe(1);
  });

  test('are ordered by miss when asked for, and after the next start as well', async () => {
    await page.getByRole('button', { name: /^Order of the rows/ }).click();
    await page.getByRole('menuitemradio', { name: /^By miss/ }).click();
    const byMiss = ['primary-2', 'primary-3', 'primary-1', 'primary-4'];
    await expect.poll(ids).toEqual(byMiss);
    await page.goto('about:blank');
    await page.goto(app.host.address);
    await openBench(page, headerId);
    await expect.poll(ids).toEqual(byMiss);
    await row('primary-2').click({ position: { x: 20, y: 8 } });
    await page.keyboard.press('ArrowDown');
    expect(await focusedRow()).toBe('primary-3');
  });

  test('of a finished header can be looked at and not changed', async () => {
    const opened = await app.backend.must('createHeader', { name: 'Done four', from: 'demo' });
    const steps = [{ action: 'do' as const, stepId: 'finish-for-board', edit: { kind: 'finishHeader' as const } }];
    await app.backend.must('commitSteps', { headerId: opened.header.id, baseRevision: opened.revision, steps });
    await openBench(page, opened.header.id);
    await expect.poll(() => row('primary-3').locator('.board-now').textContent()).toBe('◀ 3/16" short');
    expect(await page.getByRole('button', { name: /^More for/ }).count()).toBe(0);
    await row('primary-1').focus();
    await page.keyboard.press('F2');
    expect(await page.getByRole('textbox', { name: /^New name/ }).count()).toBe(0);
  });
});

describe('a piece typed', () => {
  test('draws its own row again and no other', async () => {
    await row('primary-2').click({ position: { x: 20, y: 8 } });
    // Past 36 in all strips are drawn to another length; what is looked for comes after that.
    await entryLine(page).fill('1/4');
    await entryLine(page).press('Enter');
    await expect.poll(() => row('primary-2').locator('.board-now').textContent()).toBe('▶ 1/2" long');
    await page.evaluate(() => {
      const drawn = new Set<string>();
      Object.assign(globalThis, { drawn });
      new MutationObserver((changes) => {
        for (const { target } of changes) {
          const of = (target instanceof Element ? target : target.parentElement)?.closest('[data-primary]');
          if (of) drawn.add(of.getAttribute('data-primary') ?? '');
        }
      }).observe(document.querySelector('.board-rows') as Element, {
        subtree: true,
        childList: true,
        attributes: true,
        characterData: true,
      });
    });
    await entryLine(page).fill('1/8');
    await entryLine(page).press('Enter');
    await expect.poll(() => row('primary-2').locator('.board-now').textContent()).toBe('▶ 5/8" long');
    expect(await page.evaluate(() => [...(globalThis as unknown as { drawn: Set<string> }).drawn])).toEqual([
      'primary-2',
    ]);
  });
});
