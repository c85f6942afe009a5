/** What a page says that the program does not know, and one whose headers can only be looked at. */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchBrowser } from '../../browser.ts';
import { openWindow, startApp } from '../../e2e/app-under-test.ts';
import { entryLine, saveMark } from '../../e2e/page-parts.ts';

let browser: Browser;
let app: Awaited<ReturnType<typeof startApp>>;
let folder: string;
beforeAll(async () => {
  browser = await launchBrowser();
  folder = mkdtempSync(join(tmpdir(), 'evenrun-trouble-'));
  app = await startApp(folder);
});
afterAll(async () => {
  await app.stop();
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

test('a page without its token says what to do, and starts once the whole address is opened in it', async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  const { origin } = new URL(app.host.address);
  await page.goto(origin);
  const words = page.getByRole('alert').filter({ hasText: 'Open the address that Evenrun printed' });
  await words.waitFor();
  expect(await words.textContent()).toMatch(/new tab.*start Evenrun again/);
  expect(await page.getByText('does not answer').count()).toBe(0);
  // Another tab's token, or that of an earlier start, is no better.
  await page.goto(`${origin}/#token=of-an-earlier-start`);
  await page.reload();
  await words.waitFor();
  await page.goto(app.host.address);
  await page
    .getByRole('button', { name: /^Start with/ })
    .or(page.getByRole('heading', { name: /./ }))
    .first()
    .waitFor();
  await expect.poll(() => words.count()).toBe(0);
  expect(page.url()).not.toContain('token');
  await context.close();
});

test('steps of a page whose program was started again wait, and are saved once its new address is opened in it', async () => {
  const before = await startApp(folder);
  const context = await browser.newContext();
  const { page } = await openWindow(context, before.host);
  const { header } = await before.backend.must('createHeader', { name: 'Kept open', from: 'demo' });
  await page.goto(`${new URL(before.host.address).origin}/#/bench/${header.id}`);
  await entryLine(page).waitFor();
  // Started again, on the same port: the calls now meet a host with another secret.
  await page.route('**/bridge/*', (route) => {
    const headers = { ...route.request().headers(), 'x-evenrun-token': 'of-the-start-before' };
    return route.request().headers()['x-evenrun-token'] === before.host.token
      ? route.continue({ headers })
      : route.continue({ headers: { ...headers, 'x-evenrun-token': before.host.token } });
  });
  await entryLine(page).fill('2 1/4');
  await page.keyboard.press('Enter');
  await expect.poll(() => saveMark(page).textContent()).toMatch(/Open the address that Evenrun printed/);
  await page.evaluate(() => {
    window.location.hash = '#token=of-the-new-start';
  });
  await expect.poll(() => saveMark(page).textContent()).toBe('All saved');
  const { revision } = await before.backend.must('readRevision', { headerId: header.id });
  expect(revision).toBe(1);
  await context.close();
  await before.stop();
});

test('headers that can only be looked at: said on every screen until they can be written again', async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  const cannotWrite = { kind: 'storage', fault: 'readOnly', file: '/shop/evenrun.sqlite', detail: '' };
  let isMended = false;
  await page.route('**/bridge/start', async (route) => {
    if (isMended) return await route.continue();
    const answer = await route.fetch();
    const body = (await answer.json()) as { value: object };
    await route.fulfill({ response: answer, json: { ...body, value: { ...body.value, cannotWrite } } });
  });
  await page.goto(app.host.address);
  const line = page.getByText('nothing can be changed for now');
  await line.waitFor();
  const told = page.locator('.looking-only');
  expect(await told.textContent()).toMatch(
    /look at your headers and export them.*shop\/evenrun\.sqlite can be read but not written/,
  );
  for (const screen of ['#/headers', '#/shelf', '#/archive']) {
    await page.evaluate((hash) => {
      window.location.hash = hash;
    }, screen);
    await expect.poll(() => told.isVisible()).toBe(true);
  }
  const refused = page.waitForResponse('**/bridge/start');
  await told.getByRole('button', { name: 'Try again' }).click();
  await refused;
  await expect.poll(() => told.isVisible()).toBe(true);
  isMended = true;
  await told.getByRole('button', { name: 'Try again' }).click();
  await page.getByText('Changes are saved again.').waitFor();
  expect(await told.count()).toBe(0);
  await context.close();
});
