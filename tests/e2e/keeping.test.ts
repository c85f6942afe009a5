/** Pictures, finished headers as files, and everything in one file: through the page, from one computer to another. */

import { readFile } from 'node:fs/promises';
import type { Browser, Download, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchBrowser } from '../browser.ts';
import { type AppUnderTest, launchApp } from './app-under-test.ts';
import { command, expectNoFaults, openBench, openDemo, openPanel, openPlace, PLACES } from './page-parts.ts';

let browser: Browser;
let here: AppUnderTest;
let there: AppUnderTest;
let headerId = '';
beforeAll(async () => {
  browser = await launchBrowser();
  here = await launchApp({ browser });
  there = await launchApp({ browser });
});
afterAll(async () => {
  await here.end();
  await there.end();
  await browser.close();
});

interface Given {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

/** A JPEG or PNG of two colours, drawn by the browser itself. */
async function drawnFile(page: Page, name: string, widthPx: number, heightPx: number): Promise<Given> {
  const mimeType = name.endsWith('.png') ? 'image/png' : 'image/jpeg';
  const base64 = await page.evaluate(
    ([type, width, height]) => {
      const canvas = document.createElement('canvas');
      Object.assign(canvas, { width, height });
      const pen = canvas.getContext('2d');
      for (const [at, colour] of ['#c02020', '#2020c0'].entries()) {
        if (pen) pen.fillStyle = colour;
        pen?.fillRect((at * width) / 2, 0, width / 2, height);
      }
      return canvas.toDataURL(type).split(',')[1] ?? '';
    },
    [mimeType, widthPx, heightPx] as const,
  );
  return { name, mimeType, buffer: Buffer.from(base64, 'base64') };
}

/** The same JPEG as a camera writes it that was held upright: its right side is up (Exif 2.3, tag 0x0112, value 6). */
function heldUpright({ buffer, ...file }: Given): Given {
  const tiff = Buffer.from('49492a0008000000010012010300010000000600000000000000', 'hex');
  const exif = Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), tiff]);
  const length = Buffer.alloc(2);
  length.writeUInt16BE(exif.length + 2);
  const app1 = Buffer.concat([Buffer.from([0xff, 0xe1]), length, exif]);
  return { ...file, buffer: Buffer.concat([buffer.subarray(0, 2), app1, buffer.subarray(2)]) };
}

/** Presses what asks for files and hands them over. */
async function choose(page: Page, button: Locator, files: readonly Given[]): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await button.click();
  await (await chooser).setFiles([...files]);
}

async function textOf(download: Download): Promise<Buffer> {
  return await readFile(await download.path());
}

const told = async () => (await here.backend.must('listPictures', { headerId })).pictures;

test('pictures are chosen and dropped in, made upright and no larger than need be, and what is none is refused in words', async () => {
  const { page } = here;
  headerId = await openDemo(here);
  await openPanel(page, 'Pictures');
  const photo = await drawnFile(page, 'bench.jpg', 3000, 2000);
  const upright = heldUpright(await drawnFile(page, 'upright.jpg', 40, 20));
  const drawing = await drawnFile(page, 'plan.png', 300, 200);
  const text = { name: 'notes.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture') };
  await choose(page, page.getByRole('button', { name: 'Add pictures' }), [photo, upright, text]);
  await page.getByRole('alert').filter({ hasText: 'notes.jpg was not added: it is not a picture' }).waitFor();
  const bytes = [...drawing.buffer];
  await page.locator('.picture-drop').evaluate((zone, given) => {
    const files = new DataTransfer();
    files.items.add(new File([new Uint8Array(given)], 'plan.png', { type: 'image/png' }));
    for (const kind of ['dragover', 'drop'])
      zone.dispatchEvent(new DragEvent(kind, { dataTransfer: files, bubbles: true, cancelable: true }));
  }, bytes);
  await expect
    .poll(async () => (await told()).map((one) => [one.mediaType, one.widthPx, one.heightPx]))
    .toEqual([
      ['image/jpeg', 1600, 1067],
      ['image/jpeg', 20, 40],
      ['image/png', 300, 200],
    ]);
  // The panel took it: the window does not offer to import it as well.
  expect(await page.getByRole('dialog').count()).toBe(0);
  await expect.poll(() => page.locator('.picture-thumb img').count()).toBe(3);
});

test('they are named, put in order, removed and put back, and undo does not reach them', async () => {
  const { page } = here;
  await page.getByRole('textbox', { name: 'Caption of picture 1' }).fill('On the bench');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Move picture 3 earlier' }).click();
  const order = async () => (await told()).map(({ caption, widthPx }) => `${caption} ${widthPx}`);
  await expect.poll(order).toEqual(['On the bench 1600', ' 300', ' 20']);
  await page.getByRole('button', { name: 'Remove picture 1, On the bench' }).click();
  await expect.poll(order).toEqual([' 300', ' 20']);
  await page.getByRole('button', { name: 'Put it back' }).click();
  await expect.poll(order).toEqual(['On the bench 1600', ' 300', ' 20']);
  expect((await here.backend.must('openHeader', { headerId })).undo).toEqual([]);
});

test('they stay with the finished header, and open large', async () => {
  const { page } = here;
  await command(page, 'Finish this header');
  await page
    .getByRole('dialog')
    .getByRole('button', { name: /^Finish/ })
    .click();
  await page.getByText('Finished: it does not change any more.').waitFor();
  await openPanel(page, 'Pictures');
  await page.getByText('Kept with the header as it was finished.').waitFor();
  expect(await page.getByRole('button', { name: 'Add pictures' }).count()).toBe(0);
  await page.getByRole('button', { name: 'Open picture 1, On the bench' }).click();
  const large = page.getByRole('dialog', { name: 'Picture 1 of 3' });
  await large.getByRole('img', { name: 'On the bench' }).waitFor();
  const widthPx = await large.getByRole('img').evaluate((image: HTMLImageElement) => image.naturalWidth);
  expect(widthPx).toBe(1600);
  await large.getByRole('button', { name: 'Next' }).click();
  await page.getByRole('dialog', { name: 'Picture 2 of 3' }).waitFor();
  await page.keyboard.press('Escape');
  expectNoFaults(here.faults);
});

let finishedFile: Buffer = Buffer.alloc(0);

test('the archive is exported into one open file', async () => {
  const { page } = here;
  await openPlace(page, PLACES.archive);
  await page.getByRole('button', { name: 'Export all' }).click();
  const dialog = page.getByRole('dialog', { name: 'Export finished headers' });
  const download = page.waitForEvent('download');
  await dialog.getByRole('button', { name: 'Export', exact: true }).click();
  finishedFile = await textOf(await download);
  await dialog.getByText(/^1 finished header exported to Finished headers\.finished\.jsonl/).waitFor();
  // As in the moment after a button that had the focus has gone.
  await page.evaluate(() => {
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'Escape', bubbles: true }));
  });
  await dialog.waitFor({ state: 'detached' });
  const line = JSON.parse(finishedFile.toString('utf8'));
  expect([line.format, line.pictures.length, line.header.name]).toEqual(['evenrun-finished', 3, 'Hill-climb four']);
});

test('on another computer it comes in once, with its pictures, and a damaged line is named', async () => {
  const { page, backend } = there;
  await openPlace(page, PLACES.archive);
  await page.getByRole('button', { name: 'Bring back from a file' }).click();
  const dialog = page.getByRole('dialog', { name: 'Bring finished headers back' });
  const text = finishedFile.toString('utf8');
  const spoilt = text.replace('On the bench', 'On the trench');
  const file = (content: string) => ({
    name: 'all.jsonl',
    mimeType: 'application/jsonl',
    buffer: Buffer.from(content),
  });
  await choose(page, dialog.getByRole('button', { name: 'Choose a file' }), [file(`${spoilt}${text}`)]);
  await dialog.getByText('1 finished header brought in from all.jsonl; 1 line not taken.').waitFor();
  await dialog.getByText(/^Line 1: It was damaged or altered/).waitFor();
  await choose(page, dialog.getByRole('button', { name: 'Choose another file' }), [file(text)]);
  await dialog.getByText('0 finished headers brought in from all.jsonl; 1 already here.').waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('heading', { name: 'Hill-climb four' }).waitFor();
  const { header, damage } = await backend.must('openHeader', { headerId });
  expect([header, damage]).toEqual([(await here.backend.must('openHeader', { headerId })).header, null]);
  await openBench(page, headerId);
  await openPanel(page, 'Pictures');
  await expect.poll(() => page.locator('.picture-thumb img').count()).toBe(3);
});

test('everything goes into one file, is proven, and comes back from it', async () => {
  const { page } = here;
  await here.backend.must('createHeader', { name: 'Begun here', from: 'demo' });
  await command(page, 'Back up everything to a file');
  const dialog = page.getByRole('dialog', { name: 'Back up everything to a file' });
  const download = page.waitForEvent('download');
  await dialog.getByRole('button', { name: 'Back up everything' }).click();
  const file = await textOf(await download);
  await dialog.getByText(/^Proven, and handed to the browser to save as .*: 2 headers, 1 of them finished/).waitFor();
  await page.keyboard.press('Escape');
  await there.backend.must('createHeader', { name: 'Begun there', from: 'blank' });
  await command(there.page, 'Restore everything from a file');
  const restoring = there.page.getByRole('dialog', { name: 'Restore everything from a file' });
  const button = restoring.getByRole('button', { name: 'Choose a file' });
  await choose(there.page, button, [
    { name: 'x.sqlite', mimeType: '', buffer: Buffer.from('nothing of ours '.repeat(999)) },
  ]);
  await restoring.getByText('This file is not a backup of everything, or it is damaged.').waitFor();
  await choose(there.page, button, [{ name: 'all.sqlite', mimeType: '', buffer: file }]);
  await restoring.getByText('The file is whole: 2 headers, 1 of them finished').waitFor();
  await restoring.getByRole('button', { name: 'Restore everything' }).click();
  await expect.poll(() => there.page.getByRole('dialog').count()).toBe(0);
  const names = async () =>
    (await there.backend.must('listHeaders', { place: 'bench' })).headers.map(({ name }) => name);
  expect((await names()).toSorted()).toEqual(['Begun here', 'Hill-climb four']);
  expect((await there.backend.must('listBackups', {})).backups[0]?.kind).toBe('setAside');
  expectNoFaults(here.faults);
  expectNoFaults(there.faults);
});
