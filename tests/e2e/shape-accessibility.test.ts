/** A1 for what the drawers of shape and view hold beyond their first sight: axe finds nothing on any of it. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { findingsInEveryLook } from './axe-findings.ts';
import { openDemo } from './page-parts.ts';
import { openDrawer, press, showTab, still } from './shape-parts.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  await openDemo(app);
  await app.page.locator('[data-row="1"][data-column="2"]').focus();
});
afterAll(async () => await app.end());

const TABS: Readonly<Record<string, readonly string[]>> = {
  'Ports and inlets': ['Collector by pattern'],
  Clocking: [],
  Closure: [],
  Clearance: [],
  Obstacles: ['Add box', 'Add cylinder', 'Add plane'],
  Tables: [],
  'Other bank': [],
};

test.each(Object.entries(TABS))('panel %s', async (tab, buttons) => {
  const { page } = app;
  await openDrawer(page, 'Shape');
  await showTab(page, tab);
  for (const button of buttons) await press(page, button);
  expect(await findingsInEveryLook(page, tab)).toEqual({ views: 4, findings: [] });
});

test('the view with a section', async () => {
  const { page } = app;
  await openDrawer(page, 'View');
  await press(page, 'Turn and cut');
  await page.getByLabel('Section').selectOption({ label: 'Cut across up' });
  await still(page);
  expect(await findingsInEveryLook(page, 'view with a section')).toEqual({ views: 4, findings: [] });
});

test('the flat views', async () => {
  const { page } = app;
  await openDrawer(page, 'View');
  await press(page, 'Flat views');
  await page.locator('.flat-view').first().waitFor();
  expect(await findingsInEveryLook(page, 'flat views')).toEqual({ views: 4, findings: [] });
});
