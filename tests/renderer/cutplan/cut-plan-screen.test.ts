/** The cut plan on the real store and the real solver: from an empty shelf to a list of cuts and what is short. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { demoShelf } from '../../../core/stock/demo-shelf.ts';
import { freshId } from '../../../renderer/ui/random-id.ts';
import { type AppUnderTest, launchApp } from '../../e2e/app-under-test.ts';
import { command, downloadedText, expectNoFaults, headerMenu, openBench, openDemo } from '../../e2e/page-parts.ts';
import { adding } from '../../shelf-changes.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp();
  // All pieces of the demo header have their tube; a copy to be built again has none.
  const demo = await openDemo(app);
  const copied = await app.backend.must('duplicateHeader', { headerId: demo, name: 'Second of its kind', as: 'again' });
  headerId = copied.header.id;
});
afterAll(async () => await app.end());

const cover = () => app.page.locator('.cut-cover');
const planned = async () => {
  const { header } = await app.backend.must('openHeader', { headerId });
  return header.primaries.flatMap(({ name, pieces }) => pieces.map((_, at) => `${name}-${at + 1}`));
};

test('a header with nothing planned says that only planned pieces are cut', async () => {
  await command(app.page, 'cut plan');
  await app.page.getByRole('heading', { level: 1, name: 'Cut plan' }).waitFor();
  await app.page.getByText('No piece is planned. Only planned pieces are cut').waitFor();
});

test('with an empty shelf everything is short, and the way to the shelf is there', async () => {
  const { page } = app;
  await openBench(page, headerId);
  await headerMenu(page, 'Second of its kind').click();
  await page.getByRole('menuitem', { name: 'Cut plan' }).click();
  await page.getByText('The shelf is empty').waitFor();
  expect(await page.locator('main').getByRole('link', { name: 'Shelf' }).getAttribute('href')).toBe('#/shelf');
  const count = (await planned()).length;
  expect(await cover().textContent()).toBe(`0 of ${count} planned pieces covered, ${count} short.`);
});

test('a wall is shown as it was typed, not as the nearest fraction', async () => {
  const walls = await app.page.locator('.cut-short tbody td:nth-child(2)').allTextContents();
  expect(new Set(walls)).toEqual(new Set(['0.065"']));
});

test('what is short leaves as a stock list that counts every piece', async () => {
  const { page } = app;
  const text = await downloadedText(page, () => page.getByRole('button', { name: 'Export CSV' }).click());
  const content = Buffer.from(text).toString('base64');
  const read = await app.backend.must('previewFile', { fileName: 'short.csv', content, expect: 'stock', unit: 'mm' });
  if (read.kind !== 'stock') throw new Error(`read as ${read.kind}`);
  expect(read.items.reduce((sum, { count }) => sum + count, 0)).toBe((await planned()).length);
});

test('with stock, every planned piece comes off once or is short, and the verdict says how good the plan is', async () => {
  const { page, backend } = app;
  await backend.must('changeShelf', adding(...demoShelf(freshId)));
  await page.getByRole('button', { name: 'Plan again' }).click();
  await page.locator('.cut-work').first().waitFor();
  const verdict = page.getByRole('region', { name: 'Verdict' });
  expect(await verdict.textContent()).toMatch(/Fresh stock opened costs \d+\.\d\d.*Proven least/);
  const marks = (await page.locator('.cut-steps td:last-child div').allTextContents()).flatMap((text) =>
    /^[\d\s+-]+$/.test(text) ? text.split(' + ') : [],
  );
  const notes = await page.locator('.cut-short td:last-child').allTextContents();
  const short = notes.flatMap((note) => note.replace('for ', '').split(', '));
  expect([...marks, ...short].sort()).toEqual([...(await planned())].sort());
});

test('a chosen cut is marked in its picture and said in words', async () => {
  const { page } = app;
  const work = (at: number) => page.locator('.cut-work').nth(at);
  const cuts = work(0).getByRole('button', { name: /^Show cut 1\./ });
  for (let at = 0; at < (await cuts.count()); at += 1) {
    await cuts.nth(at).focus();
    await page.keyboard.press('Enter');
    expect(await work(0).locator('path[data-chosen]').count()).toBeGreaterThan(0);
    const comesOff = await work(0).locator('.cut-steps tr[data-chosen] td').nth(1).textContent();
    const said = await work(0).getByRole('status').textContent();
    expect(said?.replaceAll(/[;\s]/g, '')).toBe(`Cut1.${at + 1}gives${comesOff?.replaceAll(/\s/g, '')}.`);
  }
  await work(1).locator('path.cut-piece').first().click();
  expect(await work(1).getByRole('status').textContent()).toMatch(/^Cut 2\.\d+ gives /);
  expect(await work(0).locator('path[data-chosen]').count()).toBe(0);
});

test("the saw is the shop's own: a wider kerf moves the lines, is kept, and a slip is refused with words", async () => {
  const { page } = app;
  const kerf = page.getByLabel('Kerf (in)');
  expect(await kerf.inputValue()).toBe('1/16');
  await kerf.fill('9');
  await page.keyboard.press('Enter');
  await page.getByText('This is 100 mm at most.').waitFor();
  await kerf.fill('0.25');
  await page.keyboard.press('Enter');
  await page.locator('.cut-work').first().waitFor();
  await page.reload();
  await page.locator('.cut-work').first().waitFor();
  expect(await kerf.inputValue()).toBe('1/4');
  // Two lines on the same straight stock are a piece and a quarter of an inch apart.
  const bar = page.locator('.cut-work', { hasText: 'straight, 48"' }).first();
  const figures = async (column: number, said: RegExp) => {
    const cells = await bar.locator(`tbody td:nth-of-type(${column}) div:first-child`).allTextContents();
    return cells.flatMap((text) => {
      const [, words] = said.exec(text.replaceAll('\u2009', ' ')) ?? [];
      return words === undefined ? [] : [words.split(' ').reduce((sum, part) => sum + fraction(part), 0)];
    });
  };
  const lines = await figures(1, /^([\d /]+)" from the first end/);
  const lengths = await figures(2, /: straight ([\d /]+)"$/);
  expect(lines.length).toBeGreaterThan(1);
  expect((lines[1] ?? 0) - (lines[0] ?? 0)).toBeCloseTo((lengths[1] ?? 0) + 0.25, 6);
});

/** `15/16` or `7` as a number. */
function fraction(text: string): number {
  const [over = 0, under = 1] = text.split('/').map(Number);
  return over / under;
}

test('figures follow the unit, and another header than was planned is said', async () => {
  const { page, backend } = app;
  expect(await page.locator('.cut-steps').first().textContent()).toContain('"');
  await command(page, 'switch between inches');
  await expect.poll(() => page.locator('.cut-steps').first().textContent()).toMatch(/\d mm/);
  expect(await page.getByText('The header has changed since').count()).toBe(0);
  const stored = async () => await backend.must('openHeader', { headerId });
  // The page's own step is on disk, so that the one made behind its back comes after it and not in its place.
  await expect.poll(async () => (await stored()).header.settings.display.kind).toBe('mm');
  const { header, revision } = await stored();
  const [primary] = header.primaries;
  const [piece] = primary?.pieces ?? [];
  if (primary === undefined || piece === undefined) throw new Error('the header has no piece');
  const edit = { kind: 'replacePiece', primaryId: primary.id, piece: { ...piece, state: 'cut' } } as const;
  const steps = [{ action: 'do' as const, stepId: 'cut-elsewhere', edit }];
  await backend.must('commitSteps', { headerId, baseRevision: revision, steps });
  await page.getByText('The header has changed since').waitFor();
  const left = (await planned()).length - 1;
  await page.getByRole('button', { name: 'Plan again' }).click();
  await expect.poll(() => cover().textContent()).toContain(`${left} planned pieces`);
  expectNoFaults(app.faults);
});

test('a shelf that was changed meanwhile is said, and nothing is marked cut', async () => {
  const { page, backend } = app;
  await page.locator('.cut-work').first().waitFor();
  const before = await planned();
  const { stock } = await backend.must('listStock', {});
  const changes = stock.map(({ item, revision }) => ({
    kind: 'set' as const,
    item: { ...item, note: 'counted' },
    revision,
  }));
  await backend.must('changeShelf', { changes, because: '' });
  await page.getByRole('button', { name: 'Mark as cut' }).click();
  await page.getByText('A header or the shelf was changed meanwhile').waitFor();
  expect((await backend.must('listCutPlans', { headerId })).plans).toEqual([]);
  expect(await planned()).toEqual(before);
  expectNoFaults(app.faults);
});
