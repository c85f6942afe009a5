/** The frame around the screens: where it opens, keys, notices, a page that fails, a store that cannot be opened. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchBrowser } from '../../browser.ts';
import { type AppUnderTest, launchApp, openWindow, startApp } from '../../e2e/app-under-test.ts';
import { entryLine, expectNoFaults, framesDrawn, goTo, headerMenu, openDemo, saveMark } from '../../e2e/page-parts.ts';
import { openBackend } from '../../trust/backend-under-test.ts';

let browser: Browser;
let app: AppUnderTest;
beforeAll(async () => {
  browser = await launchBrowser();
  app = await launchApp({ browser });
});
afterAll(async () => {
  await app.end();
  await browser.close();
});

const dialog = () => app.page.getByRole('dialog');

test('keys: Ctrl+/ lists them, ? is text and no shortcut; Escape closes; Ctrl+S makes a backup and says already saved', async () => {
  const { page } = app;
  await openDemo(app);
  await entryLine(page).focus();
  await page.keyboard.type('?');
  expect(await entryLine(page).inputValue()).toBe('?');
  expect(await dialog().count()).toBe(0);
  await page.keyboard.press('Escape');
  await goTo(page, '#/archive');
  await page.locator('#screen h1').click();
  await page.keyboard.press('?');
  await framesDrawn(page);
  expect(await dialog().count()).toBe(0);
  await page.keyboard.press('Control+/');
  await page.getByRole('dialog', { name: 'Keys' }).waitFor();
  await page.keyboard.press('Escape');
  await expect.poll(() => dialog().count()).toBe(0);
  const before = (await app.backend.must('listBackups', {})).backups.length;
  await page.keyboard.press('Control+s');
  await page.getByText(/^Already saved/).waitFor();
  expect((await app.backend.must('listBackups', {})).backups.length).toBe(before + 1);
});

test('undo is offered by name and works from the keyboard', async () => {
  const { page } = app;
  await page.getByRole('link', { name: 'Bench' }).click();
  await entryLine(page).waitFor();
  const pieces = () => page.locator('.piece-grid tbody tr[aria-rowindex]').count();
  const before = await pieces();
  await entryLine(page).fill('2 1/4');
  await page.keyboard.press('Enter');
  await expect.poll(pieces).toBe(before + 1);
  await page.keyboard.press('Control+k');
  await page.keyboard.type('undo');
  await expect.poll(() => page.getByRole('menuitem').first().textContent()).toMatch(/^Undo: add straight/);
  // The first Escape empties the line, the second closes the search.
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  await expect.poll(() => dialog().count()).toBe(0);
  await entryLine(page).focus();
  await page.keyboard.press('Control+z');
  await expect.poll(pieces).toBe(before);
  await page.keyboard.press('Control+y');
  await expect.poll(pieces).toBe(before + 1);
});

test('the search has the nearest command in hand, however slowly Enter comes', async () => {
  const { page } = app;
  await page.keyboard.press('Control+k');
  await page.keyboard.type('new header', { delay: 60 });
  const first = page.getByRole('menuitem').first();
  await expect.poll(() => first.getAttribute('data-focused')).toBe('true');
  await framesDrawn(page, 40);
  expect(await first.textContent()).toMatch(/^New header/);
  expect(await first.getAttribute('data-focused')).toBe('true');
  await page.keyboard.press('Enter');
  await page.getByRole('dialog', { name: 'New header' }).waitFor();
  await page.keyboard.press('Escape');
  await expect.poll(() => dialog().count()).toBe(0);
});

test('a new window opens on the header of last time', async () => {
  const { page } = app;
  await expect.poll(() => saveMark(page).textContent()).toBe('All saved');
  const second = await openWindow(app.context, app.host);
  await entryLine(second.page).waitFor();
  await headerMenu(second.page, 'Hill-climb four').waitFor();
  await second.page.close();
});

test('a window asks for its header once, and for one opened later when it is opened', async () => {
  const lookingAt = async (hash: string) => {
    const page = await app.context.newPage();
    const asked: string[] = [];
    page.on('request', (request) => {
      if (request.url().endsWith('/bridge/openHeader')) asked.push(request.postData() ?? '');
    });
    await page.goto(app.host.address);
    // The token is out of the address by then, as after any start.
    await headerMenu(page, 'Hill-climb four').waitFor();
    await goTo(page, hash);
    await page.reload();
    return { page, asked };
  };
  const bench = await lookingAt(await app.page.evaluate(() => location.hash));
  await headerMenu(bench.page, 'Hill-climb four').waitFor();
  expect(bench.asked).toHaveLength(2);
  await bench.page.close();
  const list = await lookingAt('#/headers');
  await list.page.getByRole('heading', { name: 'Headers', exact: true }).waitFor();
  expect(list.asked).toHaveLength(1);
  await list.page.getByRole('link', { name: 'Bench' }).click();
  await headerMenu(list.page, 'Hill-climb four').waitFor();
  expect(list.asked).toHaveLength(2);
  await list.page.close();
});

test('a header that is not there says so and leads back to the list', async () => {
  const { page } = app;
  await goTo(page, '#/bench/nosuchheader');
  await page.getByRole('heading', { name: 'This header could not be opened' }).waitFor();
  await page.getByRole('button', { name: 'Go to the list of headers' }).click();
  await page.getByRole('heading', { name: 'Headers' }).waitFor();
});

test('a file dropped on the window is looked at first; anything else dropped does nothing', async () => {
  const { page } = app;
  const before = (await app.backend.must('listHeaders', { place: 'bench' })).headers.length;
  const drop = (kind: 'file' | 'text') =>
    page.evaluate((what) => {
      const transfer = new DataTransfer();
      if (what === 'file')
        transfer.items.add(new File(['primary,length\n1,2 1/4\n'], 'dropped.csv', { type: 'text/csv' }));
      else transfer.setData('text/plain', 'https://example.org');
      document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
    }, kind);
  await drop('text');
  expect(await dialog().count()).toBe(0);
  await drop('file');
  await page.getByRole('dialog', { name: 'Import dropped.csv' }).waitFor();
  await page.getByRole('button', { name: 'Import nothing' }).click();
  expect((await app.backend.must('listHeaders', { place: 'bench' })).headers.length).toBe(before);
  expectNoFaults(app.faults);
});

test('the window is named after what is on it', async () => {
  const { page } = app;
  await goTo(page, '#/shelf');
  await expect.poll(() => page.title()).toBe('Shelf - Evenrun');
  await page.getByRole('link', { name: 'Bench' }).click();
  await expect.poll(() => page.title()).toBe('Hill-climb four - Evenrun');
});

test('a screen that fails is replaced by words and a way out, and the bar stays', async () => {
  const { page } = app;
  // An answer that no store gives: the archive cannot make anything of it.
  const broken = JSON.stringify({ ok: true, value: { rows: [{}] } });
  await page.route('**/bridge/searchArchive', (route) =>
    route.fulfill({ contentType: 'application/json', body: broken }),
  );
  await goTo(page, '#/archive');
  await page.getByRole('heading', { name: 'This screen stopped working' }).waitFor();
  expect(await page.getByRole('alert').filter({ hasText: 'on disk' }).count()).toBe(1);
  await page.getByRole('button', { name: 'Go to the list of headers' }).click();
  await page.getByRole('heading', { name: 'Headers', exact: true }).waitFor();
  await page.unroute('**/bridge/searchArchive');
  await goTo(page, '#/archive');
  await page.getByRole('heading', { name: 'Archive' }).waitFor();
});

test('a host that is gone is said in words, and asked again', async () => {
  const { page } = app;
  await page.route('**/bridge/listHeaders', (route) => route.abort());
  await goTo(page, '#/headers');
  await page.getByText(/does not answer/).waitFor();
  await page.unroute('**/bridge/listHeaders');
  await page.getByRole('button', { name: 'Try again' }).click();
  await page.getByRole('heading', { name: 'Headers', exact: true }).waitFor();
});

test('preferences hold after a restart', async () => {
  await app.page.keyboard.press('Control+,');
  await app.page.getByLabel('Size', { exact: true }).selectOption('desk');
  await app.page.getByLabel('Light or dark', { exact: true }).selectOption('dark');
  await app.page.getByRole('button', { name: 'Done' }).click();
  await expect
    .poll(async () => {
      const start = await app.backend.must('start', {});
      return start.state === 'ready' ? start.preferences : null;
    })
    .toEqual({ theme: 'dark', density: 'desk' });
  app = await app.restart();
  await expect
    .poll(() =>
      app.page.evaluate(() => [document.documentElement.dataset['theme'], document.documentElement.dataset['density']]),
    )
    .toEqual(['dark', 'desk']);
});

test('a store that cannot be opened says what happened and what is safe, and a backup brings the headers back', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-frame-'));
  const whole = openBackend(folder, Math.random);
  await whole.must('start', {});
  await whole.must('createHeader', { name: 'Kept in a backup', from: 'demo' });
  await whole.must('makeBackup', {});
  await whole.close();
  const { backend, host, stop } = await startApp(folder);
  const start = await backend.must('start', {});
  const file = start.state === 'ready' ? start.dataFolder : folder;
  await stop();
  const { readdirSync } = await import('node:fs');
  const database = readdirSync(file).find((name) => /\.(db|sqlite3?)$/.test(name)) ?? '';
  writeFileSync(join(file, database), 'this is no database, whatever its name says'.repeat(200));
  const broken = await startApp(folder);
  const context = await browser.newContext();
  const { page } = await openWindow(context, broken.host);
  await page.getByRole('heading', { name: 'Your headers could not be opened' }).waitFor();
  const words = await page.locator('main').textContent();
  expect(words).toMatch(/left as it is/);
  await page
    .getByRole('button', { name: /^Restore the backup of/ })
    .first()
    .click();
  await page.getByRole('button', { name: 'Kept in a backup', exact: true }).or(entryLine(page)).first().waitFor();
  expect((await broken.backend.must('listHeaders', { place: 'bench' })).headers.map(({ name }) => name)).toEqual([
    'Kept in a backup',
  ]);
  expect(host.address).not.toBe('');
  await context.close();
  await broken.stop();
  rmSync(folder, { recursive: true, force: true });
});
