/** A1: axe finds nothing on any screen, in any theme and density; and it does find something when there is. */

import { expect, test } from 'vitest';
import { launchApp } from './app-under-test.ts';
import { findingsOf, runAxe } from './axe-findings.ts';

const MINUTES = 60_000;

test('a picture without words is found, so that silence means something', async () => {
  const app = await launchApp({ host: 'loopback' });
  try {
    await app.page.locator('#screen').waitFor();
    await app.page.evaluate(() => {
      const picture = document.createElement('img');
      picture.src = 'data:image/gif;base64,R0lGODlhAQABAAAAACw=';
      document.querySelector('#screen')?.append(picture);
    });
    expect(await findingsOf(app, 'spoilt')).toEqual([expect.stringContaining('image-alt')]);
  } finally {
    await app.end();
  }
});

test(
  'every screen, theme and density',
  async () => {
    const { views, findings } = await runAxe();
    expect(findings).toEqual([]);
    expect(views).toBeGreaterThan(80);
  },
  5 * MINUTES,
);
