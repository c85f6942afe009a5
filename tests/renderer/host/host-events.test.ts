/** What a host tells the page: menu items, a file from the system, and that the window is about to close. */

import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { HostEvent } from '../../../electron/bridge/contract.ts';
import { type AppUnderTest, launchApp } from '../../e2e/app-under-test.ts';
import { entryLine, expectNoFaults, openDemo, pieceRows } from '../../e2e/page-parts.ts';
import { adding } from '../../shelf-changes.ts';

let app: AppUnderTest;
let page: Page;
let headerId = '';

/** Stands where the shell's preload does: the same calls over HTTP, and events that the test sends. */
function standInForPreload(): void {
  const given = new URLSearchParams(location.hash.slice(1)).get('token');
  if (given !== null) sessionStorage.setItem('token-of-stand-in', given);
  const token = sessionStorage.getItem('token-of-stand-in') ?? '';
  const listeners = new Set<(event: unknown) => void>();
  const heard: string[] = [];
  const call = async (name: string, request: unknown) => {
    heard.push(name);
    const headers = { 'content-type': 'application/json', 'x-evenrun-token': token };
    const answer = await fetch(`/bridge/${name}`, { method: 'POST', headers, body: JSON.stringify(request) });
    return answer.json();
  };
  const onEvent = (listener: (event: unknown) => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  };
  const tell = (event: unknown) => {
    for (const listener of listeners) listener(event);
  };
  Object.assign(globalThis, { evenrun: { host: 'electron', call, onEvent }, hostUnderTest: { tell, heard } });
}

const tell = (event: HostEvent) =>
  page.evaluate((told) => {
    const { hostUnderTest } = globalThis as unknown as { hostUnderTest: { tell: (event: unknown) => void } };
    hostUnderTest.tell(told);
  }, event);

const heard = () =>
  page.evaluate(() => (globalThis as unknown as { hostUnderTest: { heard: string[] } }).hostUnderTest.heard);

beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  headerId = await openDemo(app);
  page = await app.context.newPage();
  await page.addInitScript(standInForPreload);
  await page.goto(app.host.address);
  await entryLine(page).waitFor();
});
afterAll(async () => await app.end());

test('a menu item does what the command does, wherever the page is', async () => {
  await tell({ kind: 'command', command: 'preferences' });
  await page.getByRole('dialog', { name: 'Preferences' }).waitFor();
  await page.keyboard.press('Escape');
  await tell({ kind: 'command', command: 'goShelf' });
  await page.getByRole('heading', { name: 'Shelf' }).waitFor();
});

test('a recent header of the menu bar opens on the bench', async () => {
  await tell({ kind: 'openHeader', headerId });
  await entryLine(page).waitFor();
});

test('a menu item that cannot be done here says so instead of nothing', async () => {
  await tell({ kind: 'command', command: 'findInArchive' });
  await page.getByRole('status').filter({ hasText: 'cannot be done on this screen' }).waitFor();
  await tell({ kind: 'command', command: 'redo' });
  await page.getByRole('status').filter({ hasText: 'Redo: Nothing to redo.' }).waitFor();
});

test('a file that the system opens is looked at first', async () => {
  const content = Buffer.from('primary,length\n1,2 1/4\n').toString('base64');
  await tell({ kind: 'openFile', fileName: 'from outside.csv', content });
  await page.getByRole('dialog', { name: 'Import from outside.csv' }).waitFor();
  await page.getByRole('button', { name: 'Import nothing' }).click();
  expect((await app.backend.must('listHeaders', { place: 'bench' })).headers).toHaveLength(1);
});

test('before the window closes, what is typed on the bench is taken and on disk, and the host is told', async () => {
  const pieces = async () =>
    (await app.backend.must('openHeader', { headerId })).header.primaries.reduce(
      (sum, one) => sum + one.pieces.length,
      0,
    );
  const before = await pieces();
  await entryLine(page).fill('3 1/4');
  await tell({ kind: 'flush' });
  await expect.poll(heard).toContain('readyToClose');
  const { draft } = await app.backend.must('openHeader', { headerId });
  const isTaken = (await pieces()) === before + 1;
  const isKept = draft?.text === '3 1/4';
  expect({ isTaken, isKept }).toEqual({ isTaken: !isKept, isKept: !isTaken });
  expect((await pieceRows(page)).length).toBeGreaterThan(0);
});

test('an item half typed on the shelf is taken as well', async () => {
  await tell({ kind: 'command', command: 'goShelf' });
  const od = { value: 1.75, unit: 'in' } as const;
  const item = {
    kind: 'straight',
    id: 's1',
    material: 'mild steel',
    od,
    wall: { value: 0.065, unit: 'in' },
    length: od,
    count: 1,
    note: '',
  } as const;
  await app.backend.must('changeShelf', adding(item));
  await page.reload();
  await page.getByLabel(/^Count of mild steel/).fill('9');
  await tell({ kind: 'flush' });
  await expect.poll(async () => (await app.backend.must('listStock', {})).stock[0]?.item.count).toBe(9);
  expectNoFaults(app.faults);
});
