/** A header of made-up pieces on the bench, and what its grid shows: shared by the tests of the grid in a real page. */

import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Header, Piece, PieceState } from '../../../core/header/header.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import { inches } from '../../../core/units/length.ts';
import type { AppUnderTest } from '../../e2e/app-under-test.ts';
import { entryLine, openBench } from '../../e2e/page-parts.ts';

const common = (state: PieceState) => ({ state, locked: false, note: '' });
export const straight = (id: string, value: number, state: PieceState = 'tacked'): Piece => ({
  kind: 'straight',
  id,
  length: inches(value),
  ...common(state),
});
export const bend = (id: string, angleDeg: number, state: PieceState = 'tacked'): Piece => ({
  kind: 'bend',
  id,
  clr: inches(3),
  angleDeg,
  clockingDeg: null,
  ...common(state),
});

let count = 0;

/** Puts a fresh header of primaries with these pieces on the bench; its id comes back. */
export async function benchWith(app: AppUnderTest, ...primaries: readonly (readonly Piece[])[]): Promise<string> {
  count += 1;
  const id = `rows-${count}`;
  const header: Header = {
    ...newHeader({ id, name: id }),
    primaries: primaries.map((pieces, index) => ({
      id: `p${index + 1}`,
      name: String(index + 1),
      tube: null,
      port: null,
      inletId: null,
      pieces,
    })),
  };
  const imported = await app.backend.must('importHeader', { header });
  await openBench(app.page, imported.header.id);
  await expect.poll(() => entryHasFocus(app.page)).toBe(true);
  return imported.header.id;
}

export async function entryHasFocus(page: Page): Promise<boolean> {
  return await entryLine(page).evaluate((line) => line === document.activeElement);
}

/** The texts of a column's cells. */
export async function column(page: Page, name: 'size' | 'state' | 'piece'): Promise<readonly string[]> {
  const texts = await page.locator(`.piece-grid tbody td.cell-${name}`).allTextContents();
  return texts.map((text) => text.replaceAll('\u2009', ' '));
}

export function cell(page: Page, row: number, place: number) {
  return page.locator(`tr [data-row="${row}"][data-column="${place}"]`).first();
}

/** Rows that are said to be selected, from 0. */
export async function selectedRowsOf(page: Page): Promise<readonly number[]> {
  return await page.$$eval('.piece-grid tbody tr[aria-rowindex]', (rows) =>
    rows.flatMap((row, index) => (row.getAttribute('aria-selected') === 'true' ? [index] : [])),
  );
}

/** As the clipboard would, where the focus is. */
export async function pasteText(page: Page, text: string): Promise<void> {
  await page.evaluate((pasted) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', pasted);
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
    );
  }, text);
}

export async function copiedText(page: Page, kind: 'copy' | 'cut' = 'copy'): Promise<string> {
  return await page.evaluate((wanted) => {
    const clipboardData = new DataTransfer();
    const event = new ClipboardEvent(wanted, { clipboardData, bubbles: true, cancelable: true });
    document.activeElement?.dispatchEvent(event);
    return clipboardData.getData('text/plain');
  }, kind);
}
