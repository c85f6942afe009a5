/** A1: axe finds nothing on any screen, in any theme and density; and it does find something when there is. */

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchBrowser } from '../browser.ts';
import {
  type FurnishedApp,
  findingsOf,
  inspectAlone,
  inspectScreen,
  LONE_SCREENS,
  LOOKS,
  launchFurnished,
} from './axe-findings.ts';
import { entryLine } from './page-parts.ts';
import { SCREENS } from './screens.ts';

let browser: Browser;
let furnishedApp: FurnishedApp;
beforeAll(async () => {
  browser = await launchBrowser();
  furnishedApp = await launchFurnished(browser);
});
afterAll(async () => {
  await furnishedApp.app.end();
  await browser.close();
});

test('a picture without words is found, so that silence means something', async () => {
  const { page } = furnishedApp.app;
  // The bench of the header opened last: what stands before it is taken away with all that is in it.
  await entryLine(page).waitFor();
  await page.evaluate(() => {
    const picture = document.createElement('img');
    picture.src = 'data:image/gif;base64,R0lGODlhAQABAAAAACw=';
    document.querySelector('#screen')?.append(picture);
  });
  expect(await findingsOf(page, 'spoilt')).toEqual([expect.stringContaining('image-alt')]);
});

test('no screen is left out', () => {
  expect(new Set(SCREENS.map(({ name }) => name)).size).toBeGreaterThanOrEqual(25);
  expect(LONE_SCREENS.length).toBeGreaterThanOrEqual(3);
  expect(LOOKS.length).toBe(4);
});

describe('in every theme and density, nothing is found on', () => {
  test.each(SCREENS.map((screen) => [screen.name, screen] as const))('%s', async (_name, screen) => {
    expect(await inspectScreen(furnishedApp, screen)).toEqual({ views: 4, findings: [] });
  });

  test.each(LONE_SCREENS.map((screen) => [screen.name, screen] as const))('%s', async (_name, screen) => {
    expect(await inspectAlone(browser, screen)).toEqual({ views: 4, findings: [] });
  });
});
