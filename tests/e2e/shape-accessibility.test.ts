/** A1 for what the panels of shape and the stage hold beyond their first sight: axe finds nothing on any of it. */

import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { findingsInEveryLook } from './axe-findings.ts';
import { openDemo, openPanel } from './page-parts.ts';
import { press, showTab, still } from './shape-parts.ts';

let app: AppUnderTest;
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
  await openDemo(app);
  await app.page.locator('[data-row="1"][data-column="2"]').focus();
});
afterAll(async () => await app.end());

const PANELS: Readonly<Record<string, readonly string[]>> = {
  Ports: ['Collector by pattern'],
  Clocking: [],
  Fit: [],
  Obstacles: ['Add box', 'Add cylinder', 'Add plane'],
};

test.each(Object.entries(PANELS))('panel %s', async (panel, buttons) => {
  const { page } = app;
  await openPanel(page, panel);
  for (const button of buttons) await press(page, button);
  expect(await findingsInEveryLook(page, panel)).toEqual({ views: 4, findings: [] });
});

test.each(['LRA and XYZ', 'Other bank'])('tab %s of the tables', async (tab) => {
  const { page } = app;
  await openPanel(page, 'Tables');
  await showTab(page, tab);
  expect(await findingsInEveryLook(page, tab)).toEqual({ views: 4, findings: [] });
});

test('the stage with a section', async () => {
  const { page } = app;
  await press(page, 'Cut');
  await page.getByLabel('Section').selectOption({ label: 'Section, top to bottom' });
  // The pointer still rests on the button, whose tooltip stands beside all landmarks for as long.
  await page.mouse.move(1, 1);
  await page.locator('.tooltip').waitFor({ state: 'detached' });
  await still(page);
  expect(await findingsInEveryLook(page, 'stage with a section')).toEqual({ views: 4, findings: [] });
});

test('the flat views', async () => {
  const { page } = app;
  await press(page, 'Flat views');
  await page.locator('.flat-view').first().waitFor();
  expect(await findingsInEveryLook(page, 'flat views')).toEqual({ views: 4, findings: [] });
});
