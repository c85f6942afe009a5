/** Shape in the page as it is built: poses by keyboard, the picture that follows, and what stands in for it without WebGL. */

import type { Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { Header } from '../../core/header/header.ts';
import { launchBrowser } from '../browser.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { command, enterLine, entryLine, expectNoFaults, framesDrawn, openDemo, openPanel } from './page-parts.ts';
import { frames, press, redrawn, showTab, still } from './shape-parts.ts';

let app: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  app = await launchApp({ host: 'loopback' });
});
afterAll(async () => await app.end());
afterEach(() => expectNoFaults(app.faults));

async function stored(): Promise<Header> {
  return (await app.backend.must('openHeader', { headerId })).header;
}

async function tabTo(page: Page, target: Locator): Promise<void> {
  for (let presses = 0; presses < 120; presses += 1) {
    if ((await target.count()) > 0 && (await target.evaluate((element) => element === document.activeElement))) return;
    await page.keyboard.press('Tab');
  }
  throw new Error('Tab never came there');
}

async function retype(page: Page, text: string): Promise<void> {
  await page.keyboard.press('Control+a');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

/** The picture itself, as the eye gets it. */
async function picture(page: Page): Promise<string> {
  return (await page.locator('.solid-view').screenshot()).toString('base64');
}

describe('poses by keyboard', () => {
  test('a port is entered, a bad one is refused at its field, and lengths go on working', async () => {
    headerId = await openDemo(app);
    const { page } = app;
    await command(page, 'Ports');
    const place = page.getByLabel('Port forward (in)');
    await tabTo(page, place);
    await retype(page, '1 1/2');
    await expect.poll(async () => (await stored()).primaries[0]?.port?.at.x).toEqual({ value: 1.5, unit: 'in' });

    const direction = page.getByLabel('Port points, custom');
    await tabTo(page, direction);
    await retype(page, 'outboard 20 down');
    await expect
      .poll(async () => (await stored()).primaries[0]?.port?.direction.z)
      .toBeCloseTo(-Math.sin(Math.PI / 9), 12);
    for (const [text, words] of [
      ['0, 0, 0', /points nowhere/],
      ['up', /choose an up across the tube/],
      ['sideways', /needs a direction/],
    ] as const) {
      await retype(page, text);
      await expect
        .poll(async () => await page.locator('.field-problem').allTextContents())
        .toEqual([expect.stringMatching(words)]);
      expect(await direction.inputValue()).toBe(text);
    }
    await page.keyboard.press('Escape');
    expect((await stored()).primaries[0]?.port?.direction.y).toBeCloseTo(Math.cos(Math.PI / 9), 12);
    const before = await page.locator('.primary-length').textContent();
    await entryLine(page).focus();
    await enterLine(page, '1');
    await expect.poll(() => page.locator('.primary-length').textContent()).not.toBe(before);
  });

  test('a row of ports and a collector by pattern are one step each', async () => {
    headerId = await openDemo(app);
    const { page } = app;
    await openPanel(page, 'Ports');
    await press(page, 'Row of ports');
    await page.getByLabel(/^Spacing/).fill('4; 4 1/2');
    await press(page, 'Place 4 ports');
    await expect
      .poll(async () => (await stored()).primaries.map(({ port }) => port?.at.x.value))
      .toEqual([0, -4, -8.5, -13]);
    await press(page, 'Collector by pattern');
    await page.getByLabel('Pattern', { exact: true }).selectOption({ label: '2 into 1, side by side' });
    await press(page, 'Add collector');
    await expect.poll(async () => (await stored()).collectors.map(({ inlets }) => inlets.length)).toEqual([4, 2]);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await expect.poll(async () => (await stored()).primaries[1]?.port?.at.x.value).toBe(-4.25);
  });
});

describe('the picture', () => {
  test('follows an edit, turns by keys, and is not drawn when nothing changes', async () => {
    headerId = await openDemo(app);
    const { page } = app;
    await still(page);
    const before = await picture(page);
    const count = Number(await page.locator('.view-picture').getAttribute('data-pieces'));
    await entryLine(page).focus();
    await redrawn(page, () => enterLine(page, '6'));
    expect(await page.locator('.view-picture').getAttribute('data-pieces')).toBe(String(count + 1));
    const longer = await picture(page);
    expect(longer).not.toBe(before);

    await page.getByRole('application').focus();
    await redrawn(page, () => page.keyboard.press('ArrowLeft'));
    expect(await picture(page)).not.toBe(longer);
    const drawn = await frames(page);
    await framesDrawn(page, 30);
    expect(await frames(page)).toBe(drawn);
    await press(page, 'Front');
    await expect.poll(() => frames(page)).toBe(drawn + 1);
  });

  test('a press on a tube chooses its piece, and a section hides what is cut away', async () => {
    headerId = await openDemo(app);
    const { page } = app;
    await still(page);
    await redrawn(page, () => press(page, 'Side'));
    const box = await page.locator('.solid-view').boundingBox();
    if (box === null) throw new Error('the picture has a place');
    let chosen = 0;
    for (let share = 0.2; share < 0.8 && chosen === 0; share += 0.03) {
      await page.mouse.click(box.x + box.width / 2, box.y + box.height * share);
      chosen = await page.locator('.piece-grid tr[aria-selected="true"]').count();
    }
    expect(chosen).toBe(1);
    await press(page, 'Cut');
    await still(page);
    const whole = await picture(page);
    await redrawn(page, () => page.getByLabel('Section').selectOption({ label: 'Section, side to side' }));
    expect(await picture(page)).not.toBe(whole);
  });

  test('flat views stand in when the graphics go away, and come back on asking; they are what prints', async () => {
    headerId = await openDemo(app);
    const { page } = app;
    await page.locator('.solid-canvas canvas').waitFor({ state: 'attached' });
    await page.locator('.solid-canvas canvas').evaluate((canvas) => {
      (canvas as HTMLCanvasElement).getContext('webgl2')?.getExtension('WEBGL_lose_context')?.loseContext();
    });
    await expect.poll(() => page.locator('.flat-view').count()).toBe(3);
    await press(page, 'Try again');
    await page.locator('.solid-canvas[data-frames]').waitFor({ state: 'attached' });
    await page.emulateMedia({ media: 'print' });
    await expect.poll(() => page.locator('.flat-view').count()).toBe(3);
    await page.emulateMedia({ media: 'screen' });
    await expect.poll(() => page.locator('.solid-canvas').count()).toBe(1);
  });
});

test('without WebGL there are three flat views with every piece, and the program says why', async () => {
  const browser = await launchBrowser({ hasGraphics: false });
  const bare = await launchApp({ browser });
  try {
    await openDemo(bare);
    const { page } = bare;
    await expect
      .poll(() =>
        page.locator('.flat-view').evaluateAll((views) => views.map((view) => (view as HTMLElement).dataset['pieces'])),
      )
      .toEqual(['32', '32', '32']);
    await page.getByText('WebGL').waitFor();
    await entryLine(page).focus();
    await enterLine(page, '6');
    await expect.poll(() => page.locator('.flat-view').first().getAttribute('data-pieces')).toBe('33');
    expectNoFaults(bare.faults);
  } finally {
    await bare.end();
    await browser.close();
  }
});

describe('panels', () => {
  test('the dial turns by keys, and a turn is one step', async () => {
    headerId = await openDemo(app);
    const { page } = app;
    await page.locator('[data-row="1"][data-column="2"]').focus();
    await openPanel(page, 'Clocking');
    await page.getByRole('slider', { name: 'Clocking of piece 2' }).focus();
    for (let turns = 0; turns < 5; turns += 1) await page.keyboard.press('ArrowRight');
    const clocking = async () => {
      const piece = (await stored()).primaries[0]?.pieces[1];
      return piece?.kind === 'bend' ? piece.clockingDeg : null;
    };
    await expect.poll(clocking).toBe(65);
    await page.keyboard.press('Control+z');
    await expect.poll(clocking).toBe(60);
    await page.getByLabel('Reading on the bend before').fill('12.5');
    await page.getByLabel('Reading on this bend').fill('57.5');
    await press(page, 'Use this clocking');
    await expect.poll(clocking).toBe(45);
  });

  test('a table is read in place of the pieces, or refused in words', async () => {
    headerId = await openDemo(app);
    const { page } = app;
    await openPanel(page, 'Tables');
    await showTab(page, 'LRA and XYZ');
    const field = page.getByRole('textbox', { name: /^Read a table/ });
    await field.fill('length_mm,rotation_deg,angle_deg,clr_mm\n100,0,400,75\n');
    await press(page, 'Put in place of pieces');
    await page.getByText('an angle above 0 and up to 360').waitFor();
    await field.fill('length_mm,rotation_deg,angle_deg,clr_mm\n100,0,90,75\n50,180,45,75\n25,,,\n');
    await press(page, 'Put in place of pieces');
    await expect
      .poll(async () => (await stored()).primaries[0]?.pieces.map(({ kind }) => kind))
      .toEqual(['straight', 'bend', 'straight', 'bend', 'straight']);
  });

  test('a mirrored copy clocked 5 degrees wrong is found and mended', async () => {
    headerId = await openDemo(app);
    const { page } = app;
    await openPanel(page, 'Tables');
    await showTab(page, 'Other bank');
    await press(page, 'Add mirrored copies');
    await expect.poll(async () => (await stored()).primaries.length).toBe(5);
    await page.keyboard.press('Alt+5');
    await page.getByText('No piece differs').waitFor();
    await showTab(page, 'LRA and XYZ');
    await page.locator('[data-row="3"][data-column="4"]').focus();
    await page.keyboard.type('-85');
    await page.keyboard.press('Enter');
    await showTab(page, 'Other bank');
    await page.getByText('One joint explains it. Re-clock piece 4 by −5°').waitFor();
    // The same between banks: of the five, only 1 and 5 are meant.
    const banks = page.getByRole('region', { name: 'Compare banks' });
    const [right, wrong] = [banks.getByRole('group').first(), banks.getByRole('group').last()];
    await right.getByLabel('Primary 2').uncheck();
    await right.getByLabel('Primary 3').uncheck();
    await wrong.getByLabel('Primary 4').uncheck();
    await banks.getByText(/against Primary 1: piece 4: clocking \+5° \(explains it best\)/).waitFor();
    await press(page, 'Re-clock piece 4');
    await page.getByText('No piece differs').waitFor();
    await banks.getByText(/against Primary 1: nothing differs/).waitFor();
  });
});
