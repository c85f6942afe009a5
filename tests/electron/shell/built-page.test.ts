/** The built preload in a real Chromium, between a page and the built main process. */

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { HostBridge } from '../../../electron/bridge/contract.ts';
import { launchBrowser } from '../../browser.ts';
import { makePageFolder } from '../page/page-folder.ts';
import { becomeReady, launchBuilt, type ShellRun, showInBrowser, until } from './built-shell.ts';

/** A page that makes a header through the bridge, writes down what it is told, and closes properly. */
const SCRIPT = `
  const told = [];
  globalThis.told = told;
  window.evenrun.onEvent(async (event) => {
    told.push(event);
    if (event.kind === 'flush') await window.evenrun.call('readyToClose', {});
  });
  const started = await window.evenrun.call('start', {});
  const made = await window.evenrun.call('createHeader', { requestId: 'from-the-page', name: 'From the page', from: 'demo' });
  document.title = started.value.state + ' ' + made.value.header.name;
`;

let browser: Browser;
let page: Page;
let shell: ShellRun;
const complaints: string[] = [];

beforeAll(async () => {
  shell = launchBuilt({ pageFolder: makePageFolder(SCRIPT) });
  await becomeReady(shell);
  browser = await launchBrowser();
  page = await browser.newPage();
  page.on('console', (message) => complaints.push(message.text()));
  page.on('pageerror', (fault) => complaints.push(String(fault)));
  await showInBrowser(shell, page);
  // Playwright's own waiting makes code from text, which the policy forbids.
  await until(async () => (await page.title()) !== 'Page' || complaints.length > 0, 'the page');
});
afterAll(() => browser.close());

/** Runs in the page, so it may use nothing from here. */
const inPage = {
  exposed: () => Object.keys((window as unknown as { evenrun: HostBridge }).evenrun),
  told: () => (globalThis as unknown as { told: unknown[] }).told,
  stranger: () =>
    (window as unknown as { evenrun: HostBridge }).evenrun.call('shell:open' as never, {} as never).then(
      () => 'answered',
      (fault: unknown) => String(fault),
    ),
};

test('the page started and made a header through preload, main process and store', async () => {
  expect(await page.title()).toBe('ready From the page');
  expect(complaints).toEqual([]);
});

test('the page sees three members, no Electron and no Node', async () => {
  expect(await page.evaluate(inPage.exposed)).toEqual(['host', 'call', 'onEvent']);
  expect(await page.evaluate(() => [typeof require, typeof process, typeof module])).toEqual([
    'undefined',
    'undefined',
    'undefined',
  ]);
});

test('a name that is no call does not leave the page', async () => {
  expect(await page.evaluate(inPage.stranger)).toContain('no call named');
});

test('a choice in the menu reaches the page as a command, without the event object', async () => {
  type MenuItem = { label?: string; submenu?: MenuItem[]; click?: () => void };
  const menus = shell.electron.Menu.shown.at(-1) as MenuItem[];
  const items = menus.flatMap((menu) => menu.submenu ?? []);
  items.find((item) => item.label === 'New header')?.click?.();
  await until(async () => (await page.evaluate(inPage.told)).length > 0, 'the command');
  expect(await page.evaluate(inPage.told)).toEqual([{ kind: 'command', command: 'newHeader' }]);
});

test('the policy holds in a real browser: nothing inline, nothing made from text', async () => {
  const blocked = await page.evaluate(async () => {
    const seen: string[] = [];
    const told = new Promise<void>((resolve) => {
      document.addEventListener('securitypolicyviolation', (event) => {
        seen.push(event.effectiveDirective);
        if (event.effectiveDirective === 'style-src-elem') resolve();
      });
    });
    const script = document.createElement('script');
    try {
      script.textContent = 'document.title = "inline";';
      document.head.append(script);
    } catch (fault) {
      seen.push(String(fault));
    }
    const style = document.createElement('style');
    style.textContent = 'body { color: red; }';
    document.head.append(style);
    // The style came last, so that by then the script would have run.
    await told;
    return { seen, title: document.title, colour: getComputedStyle(document.body).color };
  });
  expect(blocked.title).toBe('ready From the page');
  expect(blocked.colour).toBe('rgb(0, 0, 0)');
  expect(blocked.seen.join(' ')).toContain('style-src-elem');
  expect(blocked.seen.length).toBeGreaterThanOrEqual(2);
});

test('closing the window flushes the page and ends the program', async () => {
  shell.window().close();
  await until(() => shell.electron.app.log.includes('gone'), 'the end');
  expect(shell.window().destroyed).toBe(true);
});
