/** The built program behind the doubled Electron, in a real Chromium: a full disk, a crash, and the clipboard. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { type Header, readHeader } from '../../../core/index.ts';
import { launchBrowser } from '../../browser.ts';
import { enterLine, entryLine, openPanel, settled } from '../../e2e/page-parts.ts';
import type { MessageOptions } from '../electron-double.ts';
import { becomeReady, callFromPage, launchBuilt, type ShellRun, showInBrowser, until } from './built-shell.ts';
import type { OpenedHeaderReply } from './replies.ts';

let browser: Browser;
let page: Page;
let shell: ShellRun;
let headerId: string;
/** While true, the disk takes no more steps. */
let isDiskFull: boolean;

beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** Stands between the page and the store, as a disk that is full. */
function fillDisk(run: ShellRun): void {
  const answer = run.electron.ipcMain.handlers.get('evenrun:call');
  run.electron.ipcMain.handlers.set('evenrun:call', (event, name, request) => {
    if (!isDiskFull || name !== 'commitSteps') return answer?.(event, name, request);
    return { ok: false, problems: [{ kind: 'storage', fault: 'diskFull', file: 'evenrun.sqlite', detail: '' }] };
  });
}

async function showPage(): Promise<void> {
  page = await (await browser.newContext({ viewport: { width: 1366, height: 768 } })).newPage();
  await showInBrowser(shell, page);
  await entryLine(page).waitFor();
}

beforeEach(async () => {
  isDiskFull = false;
  shell = launchBuilt({});
  await becomeReady(shell);
  fillDisk(shell);
  await callFromPage(shell, 'start', {});
  const made = (await callFromPage(shell, 'createHeader', {
    requestId: 'tow-rig-request',
    name: 'Tow rig',
    from: 'demo',
  })) as OpenedHeaderReply;
  headerId = made.value.header.id;
  await callFromPage(shell, 'openHeader', { headerId });
  await showPage();
});

const pieceCount = (header: Header) => header.primaries.reduce((sum, { pieces }) => sum + pieces.length, 0);

/** The page has been told that the disk is full, and has nothing left to draw that would keep it from answering. */
async function isKnownFull(): Promise<void> {
  await page.locator('[data-save="notSaved"]').waitFor();
  await settled(page);
}

async function stored(): Promise<Header> {
  return ((await callFromPage(shell, 'openHeader', { headerId })) as { value: { header: Header } }).value.header;
}

const questions = () => shell.electron.dialog.shown.map(({ options }) => options as MessageOptions);
const isGone = () => shell.electron.app.log.includes('gone');

test('a full disk: the person is asked within seconds, and the copy holds what the disk does not', async () => {
  const before = pieceCount(await stored());
  isDiskFull = true;
  await entryLine(page).focus();
  await enterLine(page, '3 1/4');
  await enterLine(page, 'b45 90');
  await isKnownFull();
  const filePath = join(shell.dataFolder, 'copy.json');
  shell.electron.dialog.saveAnswer = { canceled: false, filePath };
  shell.electron.dialog.press = ({ buttons }) => buttons?.[1] ?? null;
  shell.window().close();
  await until(isGone, 'the end');
  expect(questions()[0]).toMatchObject({
    message: '2 steps are not saved in Tow rig',
    detail: expect.stringContaining('evenrun.sqlite is full'),
  });
  const copy = readHeader(readFileSync(filePath, 'utf8'));
  expect(copy.ok && pieceCount(copy.value)).toBe(before + 2);
});

test('wait, and then there is room: the steps are saved, and the window closes when it is closed again', async () => {
  const before = pieceCount(await stored());
  isDiskFull = true;
  await entryLine(page).focus();
  await enterLine(page, '3 1/4');
  await isKnownFull();
  shell.window().close();
  await until(() => questions().length === 1, 'the question');
  isDiskFull = false;
  await expect.poll(async () => pieceCount(await stored())).toBe(before + 1);
  expect(shell.window().destroyed).toBe(false);
  shell.window().close();
  await until(isGone, 'the end');
  expect(questions()).toHaveLength(1);
});

test('room again while the question stands: it goes away by itself, and so does the window', async () => {
  isDiskFull = true;
  await entryLine(page).focus();
  await enterLine(page, '3 1/4');
  await isKnownFull();
  shell.electron.dialog.press = () => null;
  shell.window().close();
  await until(() => questions().length === 1, 'the question');
  isDiskFull = false;
  await until(isGone, 'the end');
});

test('after a crash the page is loaded again, with every step that was committed', async () => {
  await entryLine(page).focus();
  await enterLine(page, '3 1/4');
  await page.locator('[data-save="saved"]').waitFor();
  const committed = await stored();
  const crashed = page.waitForEvent('crash');
  void page.goto('chrome://crash').catch(() => undefined);
  await crashed;
  shell.window().webContents.crash('crashed');
  await until(() => shell.window().loads === 2, 'the page');
  // What the window loads stands before the person again.
  await showPage();
  await page.getByText('Tow rig').first().waitFor();
  expect(await stored()).toEqual(committed);
  await entryLine(page).focus();
  await enterLine(page, '2');
  await expect.poll(async () => pieceCount(await stored())).toBe(pieceCount(committed) + 1);
});

test('a table can be copied', async () => {
  await openPanel(page, 'Tables');
  await page.getByRole('tab', { name: 'LRA and XYZ' }).click();
  await page.getByRole('button', { name: 'Copy table' }).click();
  await page.getByText('Table copied.').waitFor();
});
