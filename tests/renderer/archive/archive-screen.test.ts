/** Finishing a header and finding it again, on the real store. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from '../../e2e/app-under-test.ts';
import { expectNoFaults, goTo, headerMenu, openDemo } from '../../e2e/page-parts.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp();
  headerId = await openDemo(app);
});
afterAll(async () => await app.end());

const rows = () => app.page.locator('.archive-row');

async function searchFor(label: RegExp, text: string): Promise<void> {
  await app.page.getByLabel(label).fill(text);
}

test('finishing says what it means and what is not done, and can be called off', async () => {
  const { page } = app;
  await page.keyboard.press('Control+k');
  await page.keyboard.type('finish');
  await page.keyboard.press('Enter');
  const dialog = page.getByRole('dialog', { name: 'Finish Hill-climb four?' });
  await dialog.waitFor();
  expect(await dialog.textContent()).toMatch(/never changes again/);
  expect(await dialog.textContent()).toMatch(/not marked as welded/);
  await page.keyboard.press('Escape');
  expect((await app.backend.must('readRevision', { headerId })).state).toBe('open');
});

test('a finished header is in the archive with its figures and drawing, and does not change any more', async () => {
  const { page } = app;
  await page.keyboard.press('Control+k');
  await page.keyboard.type('finish');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Finish it' }).click();
  await expect.poll(async () => (await app.backend.must('readRevision', { headerId })).state).toBe('finished');
  await page.keyboard.press('Control+z');
  await goTo(page, '#/archive');
  await expect.poll(() => rows().count()).toBe(1);
  const text = await rows().textContent();
  for (const word of ['Hill-climb four', 'Target', 'Mean', 'Spread', '4 primaries', '1 3/4"']) {
    expect(text?.replaceAll('\u2009', ' ')).toContain(word);
  }
  // One line for each of its four primaries, over an edge.
  await expect.poll(() => rows().locator('.flat-picture-tube').count()).toBe(4);
  expect((await app.backend.must('readRevision', { headerId })).state).toBe('finished');
});

test('a row takes little height, so that a screen of 768 px shows ten and more', async () => {
  const { page, backend } = app;
  await backend.must('savePreferences', { preferences: { theme: 'light', density: 'desk' } });
  await page.reload();
  await expect.poll(() => rows().count()).toBe(1);
  const box = await rows().boundingBox();
  // Ten rows under what stands above the first one.
  expect((box?.height ?? 768) * 10).toBeLessThanOrEqual(768 - (box?.y ?? 768));
  // A row that was never in sight is as high, or the list would jump as it is scrolled.
  const unseen = await rows().evaluate((row) => {
    const copy = row.cloneNode(true) as HTMLElement;
    copy.style.contentVisibility = 'hidden';
    row.after(copy);
    const { height } = copy.getBoundingClientRect();
    copy.remove();
    return height;
  });
  await expect.poll(async () => Math.abs(((await rows().boundingBox())?.height ?? 0) - unseen)).toBeLessThan(1);
  for (const width of [400, 1024]) {
    await page.setViewportSize({ width, height: 768 });
    const reach = await rows().evaluate((row) => row.scrollWidth - row.clientWidth);
    expect(reach).toBeLessThanOrEqual(0);
  }
  await page.setViewportSize({ width: 1366, height: 768 });
});

test('it is found by words, tube, primaries and length, and not by others', async () => {
  for (const [label, fits, doesNot] of [
    [/^Search name/, 'climb', 'circuit'],
    [/^Tube OD/, '1 3/4', '1 7/8'],
    [/^Primaries/, '4', '8'],
    [/^Target from/, '30', '50'],
    [/^Target to/, '50', '30'],
    [/^Material/, 'STAINLESS', 'titanium'],
    [/^Spread to/, '1', '1/16'],
    [/^Finished from/, '2020-01-31', '2999-01-31'],
    [/^Finished to/, '2999-01-31', '2020-01-31'],
  ] as const) {
    await searchFor(label, doesNot);
    await expect.poll(() => rows().count(), { message: `${label} ${doesNot}` }).toBe(0);
    await searchFor(label, fits);
    await expect.poll(() => rows().count(), { message: `${label} ${fits}` }).toBe(1);
  }
  const place = async () => (await rows().boundingBox())?.y;
  const before = await place();
  await searchFor(/^Tube OD/, '1 3/');
  const problem = app.page.locator('.field-problem');
  await problem.waitFor();
  expect(await rows().count()).toBe(1);
  // What is wrong is said over the list, which keeps its place, and within the window.
  expect(await place()).toBe(before);
  await searchFor(/^Spread to/, '1 3/');
  await expect.poll(() => problem.count()).toBe(2);
  const box = await problem.last().boundingBox();
  expect((box?.x ?? 2000) + (box?.width ?? 0)).toBeLessThanOrEqual(1366);
  await searchFor(/^Spread to/, '');
});

test('it opens mirrored as a new header of planned pieces, in three presses from the archive', async () => {
  const { page } = app;
  await searchFor(/^Tube OD/, '');
  const more = page.locator('.archive-row button[aria-haspopup="menu"]');
  expect(await more.getAttribute('aria-expanded')).toBe('false');
  await page.getByRole('button', { name: 'More for Hill-climb four' }).click();
  expect(await more.getAttribute('aria-expanded')).toBe('true');
  await page.getByRole('menuitem', { name: 'Open as new, mirrored' }).click();
  await headerMenu(page, 'Hill-climb four mirrored').waitFor();
  const mirroredId = page.url().split('/').at(-1) ?? '';
  const [made, kept] = await Promise.all(
    [mirroredId, headerId].map(async (id) => (await app.backend.must('openHeader', { headerId: id })).header),
  );
  expect(made?.primaries.flatMap(({ pieces }) => pieces).every(({ state }) => state === 'planned')).toBe(true);
  const clockings = (header: typeof made) =>
    header?.primaries.flatMap(({ pieces }) =>
      pieces.map((piece) => (piece.kind === 'straight' ? 0 : (piece.clockingDeg ?? Number.NaN))),
    ) ?? [];
  expect(clockings(made)).toEqual(clockings(kept).map((clockingDeg) => 0 - clockingDeg));
  expect(clockings(kept).some((clockingDeg) => clockingDeg !== 0)).toBe(true);
  await app.backend.must('binHeader', { headerId: mirroredId });
  await goTo(page, '#/archive');
});

test('similar ones are found from the header in hand, and compared with it side by side', async () => {
  const { page } = app;
  await headerMenu(page, 'Hill-climb four mirrored').click();
  await page.getByRole('menuitem', { name: 'Similar headers' }).click();
  await page.getByText(/Most like Hill-climb four mirrored first/).waitFor();
  await page.getByText('same tube, as many primaries, same length').waitFor();
  await page.getByRole('button', { name: 'Compare Hill-climb four with Hill-climb four mirrored' }).click();
  await page.getByRole('heading', { name: 'Compare' }).waitFor();
  const figures = page.getByRole('table', { name: 'Figures of both headers' });
  await figures.waitFor();
  expect(await figures.getByRole('row', { name: /^Target/ }).textContent()).toMatch(/same$/);
  expect(
    await page
      .getByRole('table', { name: /^Length of each primary/ })
      .getByRole('row')
      .count(),
  ).toBe(5);
  expect(await page.getByRole('img', { name: /^(Front|Side|Top) of Hill-climb four/ }).count()).toBe(6);
  await page.getByRole('link', { name: 'Compare with another' }).click();
  await page.getByText(/Most like Hill-climb four mirrored first/).waitFor();
  await page.getByRole('button', { name: 'Last finished first' }).click();
  await expect.poll(() => page.getByText(/Most like/).count()).toBe(0);
});

test("the shop's charts say what one finished header comes to", async () => {
  const { page } = app;
  await page.getByRole('link', { name: 'Shop figures' }).click();
  await page.getByText(/^One finished header so far, with a spread of/).waitFor();
  await page.getByText('One finished header so far, with 0 joints opened.').waitFor();
  await page.getByText('The shelf has never held anything yet.').waitFor();
  expect(await page.locator('.shop-chart-dot').count()).toBe(2);
  await page.getByText('Spread reached as a table').click();
  await page.getByRole('columnheader', { name: 'Median spread' }).waitFor();
  await goTo(page, '#/archive');
  await expect.poll(() => rows().count()).toBe(1);
});

test('it opens as a new header that can be worked on, while it stays as it is', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'Open as new header: Hill-climb four' }).click();
  await page.waitForURL(/#\/bench\//);
  await headerMenu(page, 'Hill-climb four (copy)').waitFor();
  const { headers } = await app.backend.must('listHeaders', { place: 'bench' });
  expect(Object.fromEntries(headers.map(({ name, state }) => [name, state]))).toEqual({
    'Hill-climb four': 'finished',
    'Hill-climb four (copy)': 'open',
  });
  await goTo(page, '#/headers');
  await page.getByText('1 finished header in the').waitFor();
  expectNoFaults(app.faults);
});
