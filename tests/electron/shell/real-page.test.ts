/** The program as built, page and all, behind the doubled Electron, in a real Chromium. */

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchBrowser } from '../../browser.ts';
import { settled } from '../../e2e/page-parts.ts';
import { becomeReady, callFromPage, launchBuilt, type ShellRun, showInBrowser, until } from './built-shell.ts';

let browser: Browser;
let page: Page;
let shell: ShellRun;
const complaints: string[] = [];

beforeAll(async () => {
  shell = launchBuilt({});
  await becomeReady(shell);
  await callFromPage(shell, 'start', {});
  await callFromPage(shell, 'createHeader', { requestId: 'tow-rig-request', name: 'Tow rig', from: 'demo' });
  browser = await launchBrowser();
  page = await browser.newPage({ viewport: { width: 1366, height: 768 } });
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (fault) => complaints.push(String(fault)));
  page.on('requestfailed', (request) => complaints.push(`failed: ${request.url()}`));
  await showInBrowser(shell, page);
  await page.getByText('Tow rig').first().waitFor();
});
afterAll(() => browser.close());

test('the page starts under the strict policy without a complaint, and asks nobody else for anything', async () => {
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
  expect(complaints).toEqual([]);
});

test('the page answers to the menu', async () => {
  type MenuItem = { label?: string; submenu?: MenuItem[]; click?: () => void };
  const menus = shell.electron.Menu.shown.at(-1) as MenuItem[];
  const items = menus.flatMap((menu) => menu.submenu ?? []);
  items.find((item) => item.label === 'Find a command…')?.click?.();
  await until(async () => (await page.getByRole('dialog').count()) > 0, 'the dialog');
  await page.keyboard.press('Escape');
});

test('asked to close, the page brings in what it holds and lets go before its time is up', async () => {
  // Nothing is left to draw that would keep it from answering on a busy machine.
  await settled(page);
  shell.window().close();
  await until(() => shell.electron.app.log.includes('gone'), 'the end');
  // Once its time is up, the person is asked.
  expect(shell.electron.dialog.shown).toEqual([]);
  expect(complaints).toEqual([]);
});
