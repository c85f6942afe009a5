/** Every screen and dialog of the program, each with the way to show it. */

import type { Page } from 'playwright-core';
import type { ResponseOf } from '../../electron/bridge/contract.ts';
import type { AppUnderTest } from './app-under-test.ts';
import { command, entryLine, goTo } from './page-parts.ts';

export interface ScreenUnderTest {
  readonly name: string;
  /** Brings the screen up in a page that shows any other; what it leaves behind is undone by a reload. */
  readonly show: (page: Page) => Promise<void>;
}

/** Headers in every condition that a screen can show. */
export interface Furnished {
  readonly openId: string;
  readonly emptyId: string;
  readonly finishedId: string;
}

const STOCK_CSV = ['kind,material,od,wall,clr,angle,count', 'bend,304 stainless,1 3/4,0.065,3,90,4'].join('\n');

async function finish({ must }: AppUnderTest['backend'], opened: ResponseOf<'openHeader'>): Promise<void> {
  const steps = [{ action: 'do' as const, stepId: 'finish-for-screens', edit: { kind: 'finishHeader' as const } }];
  await must('commitSteps', { headerId: opened.header.id, baseRevision: opened.revision, steps });
}

/** Puts a header in hand, an empty one, a finished one, a binned one, some stock and a backup in place. */
export async function furnish(backend: AppUnderTest['backend']): Promise<Furnished> {
  const { must } = backend;
  const finished = await must('createHeader', { name: 'Finished four', from: 'demo' });
  await finish(backend, finished);
  const binned = await must('createHeader', { name: 'Given up', from: 'blank' });
  await must('binHeader', { headerId: binned.header.id });
  const empty = await must('createHeader', { name: 'Not begun', from: 'blank' });
  const content = Buffer.from(STOCK_CSV).toString('base64');
  const stock = await must('previewFile', { fileName: 'stock.csv', content, expect: 'stock', unit: 'in' });
  if (stock.kind !== 'stock' || stock.items.length === 0) throw new Error('the stock list of this test is not read');
  await must('addStockItems', { items: stock.items });
  await must('makeBackup', {});
  const open = await must('createHeader', { name: 'Hill-climb four', from: 'demo' });
  return { openId: open.header.id, emptyId: empty.header.id, finishedId: finished.header.id };
}

async function onBench(page: Page, headerId: string): Promise<void> {
  await goTo(page, `#/bench/${headerId}`);
  await page.locator('main.bench').waitFor();
  // Keys are heard from the frame after the one that shows the screen on.
  await page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 100)));
}

async function pressOnBench(page: Page, headerId: string, button: string): Promise<void> {
  await onBench(page, headerId);
  await page.getByRole('button', { name: button, exact: true }).click();
}

/** Moves for the primary that is short, with the first of them shown in the chart. */
async function showMoves(page: Page, headerId: string, tab: string | null = null): Promise<void> {
  await onBench(page, headerId);
  await page.keyboard.press('Alt+3');
  await page.getByRole('button', { name: 'Moves for primary 3', exact: true }).click();
  await page
    .getByRole('option', { name: /of tube added/ })
    .first()
    .click();
  if (tab !== null) await page.getByRole('tab', { name: tab }).click();
}

async function showHeaderMoves(page: Page, headerId: string): Promise<void> {
  await showMoves(page, headerId, 'All primaries out of band');
  await page.getByRole('option', { name: /Keep the target/ }).click();
}

interface DialogUnderTest {
  /** Of the command that opens it. */
  readonly name: string;
  readonly title: RegExp;
}

async function openDialog(page: Page, headerId: string, { name, title }: DialogUnderTest): Promise<void> {
  await onBench(page, headerId);
  await command(page, name);
  await page.getByRole('dialog', { name: title }).waitFor();
}

async function offerFile(page: Page, headerId: string): Promise<void> {
  await onBench(page, headerId);
  const chooser = page.waitForEvent('filechooser');
  await page.keyboard.press('Control+o');
  const buffer = Buffer.from('primary,kind,length\n1,straight,2 1/4\n1,straight,3 5/\n');
  await (await chooser).setFiles({ name: 'parts.csv', mimeType: 'text/csv', buffer });
  await page.getByRole('dialog').waitFor();
}

async function showEntryProblem(page: Page, headerId: string): Promise<void> {
  await onBench(page, headerId);
  await entryLine(page).focus();
  await page.keyboard.type('3 5/');
  await page.keyboard.press('Enter');
  await page.getByRole('alert').waitFor();
}

export function allScreens({ openId, emptyId, finishedId }: Furnished): readonly ScreenUnderTest[] {
  const place = (name: string, hash: string): ScreenUnderTest => ({ name, show: (page) => goTo(page, hash) });
  const drawer = (name: string): ScreenUnderTest => ({ name, show: (page) => pressOnBench(page, openId, name) });
  const dialog = (name: string, title: RegExp): ScreenUnderTest => ({
    name,
    show: (page) => openDialog(page, openId, { name, title }),
  });
  return [
    place('headers', '#/headers'),
    { name: 'bench', show: (page) => onBench(page, openId) },
    { name: 'empty bench', show: (page) => onBench(page, emptyId) },
    { name: 'finished header', show: (page) => onBench(page, finishedId) },
    { name: 'entry that cannot be read', show: (page) => showEntryProblem(page, openId) },
    drawer('Settings'),
    drawer('Primaries'),
    drawer('Figures'),
    drawer('Keypad'),
    drawer('View'),
    drawer('Shape'),
    { name: 'Moves', show: (page) => showMoves(page, openId) },
    { name: 'Moves for all primaries', show: (page) => showHeaderMoves(page, openId) },
    { name: 'What a move may do', show: (page) => showMoves(page, openId, 'What a move may do') },
    place('missing header', '#/bench/no-such-header'),
    place('shelf', '#/shelf'),
    place('archive', '#/archive'),
    place('help', '#/help'),
    { name: 'command search', show: (page) => onBench(page, openId).then(() => page.keyboard.press('Control+k')) },
    { name: 'import', show: (page) => offerFile(page, openId) },
    dialog('New header', /new header/i),
    dialog('Finish this header', /^Finish /),
    dialog('Preferences', /preferences/i),
    dialog('Backups', /backups/i),
    dialog('Keys', /keys/i),
  ];
}
