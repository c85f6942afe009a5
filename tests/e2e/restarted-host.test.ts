/** A host that is started again under the same address, as a new start with --port is: nothing typed meanwhile is lost. */

import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { bundleFile } from '../../electron/build/bundles.ts';
import { type LoopbackHost, startLoopbackHost } from '../../electron/loopback/loopback-host.ts';
import { readPageFiles } from '../../electron/page/page-files.ts';
import { type AppUnderTest, launchApp, openWindow } from './app-under-test.ts';
import { enterLine, entryLine, openDemo, saveMark } from './page-parts.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

let app: AppUnderTest;
let again: LoopbackHost | null = null;
let headerId = '';
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
});
afterAll(async () => {
  await again?.close();
  await app.end();
});

async function pieces(): Promise<number> {
  return (await app.backend.must('openHeader', { headerId })).header.primaries[0]?.pieces.length ?? 0;
}

/** The host as it comes up again under the same address, with a secret of its own. */
async function startAgain(port: number): Promise<LoopbackHost> {
  const files = readPageFiles(join(bundleFile(ROOT, 'renderer'), '..'));
  return await startLoopbackHost({ files, calls: app.gate, port });
}

test('two pieces typed while it is away are saved by the old tab once its new address is opened in another', async () => {
  headerId = await openDemo(app);
  const { page, host } = app;
  const before = await pieces();
  await host.close();
  await entryLine(page).focus();
  await enterLine(page, '1 1/8');
  await enterLine(page, '2 1/8');
  await expect.poll(() => saveMark(page).getAttribute('data-save')).toBe('notSaved');
  again = await startAgain(host.port);
  expect(again.token).not.toBe(host.token);
  expect(await pieces()).toBe(before);
  // What the program does at its start: it opens its address in the browser, in a tab of its own.
  await openWindow(app.context, again);
  await expect.poll(() => saveMark(page).getAttribute('data-save')).toBe('saved');
  expect(await pieces()).toBe(before + 2);
  await page.bringToFront();
  await enterLine(page, '3');
  await expect.poll(pieces).toBe(before + 3);
});

test('pieces typed while it is away are offered when the old tab is loaded again, and can be entered again', async () => {
  const { page, host } = app;
  const before = await pieces();
  await again?.close();
  await entryLine(page).focus();
  await enterLine(page, '1 3/8');
  await enterLine(page, '2 3/8');
  await expect.poll(() => saveMark(page).getAttribute('data-save')).toBe('notSaved');
  page.on('dialog', (dialog) => void dialog.accept());
  again = await startAgain(host.port);
  // In the old tab, whose page is given up: its own secret is of no use any more, so the new address is opened there.
  await page.goto('about:blank');
  await page.goto(again.address);
  const offer = page.getByText(/2 steps were not saved before this page was loaded again: add straight/);
  await offer.waitFor();
  expect(await pieces()).toBe(before);
  await page.getByRole('button', { name: 'Enter them again' }).click();
  await expect.poll(pieces).toBe(before + 2);
  await expect.poll(() => saveMark(page).getAttribute('data-save')).toBe('saved');
  await page.reload();
  await entryLine(page).waitFor();
  expect(await offer.count()).toBe(0);
  expect(await pieces()).toBe(before + 2);
});
