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
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
});
afterAll(async () => {
  await again?.close();
  await app.end();
});

test('two pieces typed while it is away are saved by the old tab once its new address is opened in another', async () => {
  const headerId = await openDemo(app);
  const { page, host } = app;
  const pieces = async () =>
    (await app.backend.must('openHeader', { headerId })).header.primaries[0]?.pieces.length ?? 0;
  const before = await pieces();
  await host.close();
  await entryLine(page).focus();
  await enterLine(page, '1 1/8');
  await enterLine(page, '2 1/8');
  await expect.poll(() => saveMark(page).getAttribute('data-save')).toBe('notSaved');
  const files = readPageFiles(join(bundleFile(ROOT, 'renderer'), '..'));
  again = await startLoopbackHost({ files, calls: app.gate, port: host.port });
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
