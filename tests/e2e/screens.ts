/** Every screen and dialog of the program, each with the way to show it. */

import type { Page } from 'playwright-core';
import type { ResponseOf } from '../../electron/bridge/contract.ts';
import { adding } from '../shelf-changes.ts';
import type { AppUnderTest } from './app-under-test.ts';
import { command, entryLine, openBench, openPanel, openPlace, PLACES, type Place } from './page-parts.ts';

export interface ScreenUnderTest {
  readonly name: string;
  /** Brings the screen up, all of it, in a page just loaded; what it leaves behind is undone by a reload. */
  readonly show: (page: Page, furnished: Furnished) => Promise<void>;
}

/** Headers in every condition that a screen can show. */
export interface Furnished {
  readonly openId: string;
  readonly emptyId: string;
  readonly finishedId: string;
  /** None of its pieces has its tube yet. */
  readonly plannedId: string;
  /** Ports and inlets are there; the first two primaries have no pieces. */
  readonly bareId: string;
}

const STOCK_CSV = ['kind,material,od,wall,clr,angle,count', 'bend,304 stainless,1 3/4,0.065,3,90,4'].join('\n');

/** A picture of one grey dot. */
const DOT = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==';

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
  await must('changeShelf', adding(...stock.items));
  await must('makeBackup', {});
  const open = await must('createHeader', { name: 'Hill-climb four', from: 'demo' });
  const picture = { caption: 'Flange side', mediaType: 'image/png', widthPx: 1, heightPx: 1, content: DOT } as const;
  await must('addPicture', { headerId: open.header.id, picture });
  const planned = await must('duplicateHeader', { headerId: open.header.id, name: 'Next one', as: 'again' });
  const stripped = open.header.primaries.map((one, index) => (index < 2 ? { ...one, pieces: [] } : one));
  const bare = await must('importHeader', { header: { ...open.header, id: 'bare', primaries: stripped } });
  return {
    bareId: bare.header.id,
    plannedId: planned.header.id,
    openId: open.header.id,
    emptyId: empty.header.id,
    finishedId: finished.header.id,
  };
}

/** A plan with cuts, remnants and shortages, with one of its cuts chosen. */
async function showCutPlan(page: Page, headerId: string): Promise<void> {
  await openPlace(page, { hash: `#/cutplan/${headerId}`, heading: 'Cut plan' });
  await page.getByRole('button', { name: 'Show cut 1.1' }).click();
}

/** The build sheet's first page, drawn. */
async function showSheet(page: Page, headerId: string): Promise<void> {
  await openPlace(page, { hash: `#/sheet/${headerId}`, heading: 'Sheets' });
  await page.locator('.sheet-preview[aria-busy="false"] svg').waitFor();
}

async function showSimilar(page: Page, headerId: string): Promise<void> {
  await openPlace(page, { hash: `#/archive/${headerId}`, heading: 'Archive' });
  await page.getByText(/^Most like/).waitFor();
}

async function showCompared(page: Page, { openId, finishedId }: Furnished): Promise<void> {
  await openPlace(page, { hash: `#/compare/${openId}/${finishedId}`, heading: 'Compare' });
  await page.locator('.compare-views svg').first().waitFor();
}

/** Opens a panel of the bench; `content` is in it once it is wholly there. */
async function showPanel(page: Page, headerId: string, word: string, content: string): Promise<void> {
  await openBench(page, headerId);
  await openPanel(page, word);
  await page.locator(content).first().waitFor();
}

async function showLargePicture(page: Page, headerId: string): Promise<void> {
  await showPanel(page, headerId, 'Pictures', '.picture-thumb img');
  await page.getByRole('button', { name: 'Open picture 1, Flange side' }).click();
  await page.getByRole('dialog', { name: 'Picture 1 of 1' }).waitFor();
}

async function showKeypad(page: Page, headerId: string): Promise<void> {
  await openBench(page, headerId);
  await page.getByRole('button', { name: 'Keypad', exact: true }).click();
  await page.locator('.pad-key').first().waitFor();
}

async function showHeaderMenu(page: Page, headerId: string): Promise<void> {
  await openBench(page, headerId);
  await page.getByRole('button', { name: /header menu$/ }).click();
  await page.getByRole('menuitem', { name: 'Finish' }).waitFor();
}

/** Moves for the primary that is short, with the first of them shown on the board. */
async function showMoves(page: Page, headerId: string, tab: string | null = null): Promise<void> {
  await openBench(page, headerId);
  await page.keyboard.press('Alt+3');
  await openPanel(page, 'Moves');
  await page
    .getByRole('row', { name: /^Lengthen straight/ })
    .first()
    .click();
  if (tab === null) return;
  await page.getByRole('tab', { name: tab }).click();
  await page.getByRole('tabpanel', { name: tab }).waitFor();
}

async function showHeaderMoves(page: Page, headerId: string): Promise<void> {
  await showMoves(page, headerId, 'Fix all');
  await page.getByRole('row', { name: /^Keep the target/ }).click();
}

/** Proposals for a primary without pieces, with the lengths that it can have. */
async function showProposals(page: Page, headerId: string): Promise<void> {
  await openBench(page, headerId);
  await page.keyboard.press('Alt+1');
  await openPanel(page, 'Moves');
  await page.getByText('Possible lengths').click();
  await page.getByRole('slider', { name: 'Length to aim at' }).waitFor();
  await page.locator('.proposal').first().waitFor();
}

/** All primaries that are left to build, proposed and shown one by one. */
async function showWholeHeader(page: Page, headerId: string): Promise<void> {
  await openBench(page, headerId);
  await page.keyboard.press('Alt+1');
  await openPanel(page, 'Moves');
  await page.getByRole('tab', { name: 'Build all' }).click();
  await page.getByRole('button', { name: 'Propose all' }).click();
  await page.locator('.whole-rows').waitFor();
}

async function openDialog(page: Page, headerId: string, name: string, title: RegExp): Promise<void> {
  await openBench(page, headerId);
  await command(page, name);
  await page.getByRole('dialog', { name: title }).waitFor();
}

async function offerFile(page: Page, headerId: string): Promise<void> {
  await openBench(page, headerId);
  const chooser = page.waitForEvent('filechooser');
  await page.keyboard.press('Control+o');
  const buffer = Buffer.from('primary,kind,length\n1,straight,2 1/4\n1,straight,3 5/\n');
  await (await chooser).setFiles({ name: 'parts.csv', mimeType: 'text/csv', buffer });
  await page.getByRole('dialog').waitFor();
}

async function showEntryProblem(page: Page, headerId: string): Promise<void> {
  await openBench(page, headerId);
  await entryLine(page).focus();
  await page.keyboard.type('3 5/');
  await page.keyboard.press('Enter');
  await page.getByRole('alert').waitFor();
}

async function searchCommands(page: Page, headerId: string): Promise<void> {
  await openBench(page, headerId);
  await page.keyboard.press('Control+k');
  await page.getByRole('dialog').waitFor();
}

function place(name: string, shown: Place): ScreenUnderTest {
  return { name, show: (page) => openPlace(page, shown) };
}

function panel(word: string, content: string): ScreenUnderTest {
  return { name: word, show: (page, { openId }) => showPanel(page, openId, word, content) };
}

function dialog(name: string, title: RegExp): ScreenUnderTest {
  return { name, show: (page, { openId }) => openDialog(page, openId, name, title) };
}

export const SCREENS: readonly ScreenUnderTest[] = [
  place('headers', PLACES.headers),
  { name: 'bench', show: (page, { openId }) => openBench(page, openId) },
  { name: 'empty bench', show: (page, { emptyId }) => openBench(page, emptyId) },
  { name: 'finished header', show: (page, { finishedId }) => openBench(page, finishedId) },
  { name: 'entry that cannot be read', show: (page, { openId }) => showEntryProblem(page, openId) },
  panel('Settings', '.settings'),
  panel('Ports', '.pose-fields'),
  panel('Fit', '.gap-head'),
  panel('As-built', '.asbuilt-fields'),
  panel('Pulses', '.pulse-chart'),
  panel('Pictures', '.picture-thumb img'),
  { name: 'picture, large', show: (page, { openId }) => showLargePicture(page, openId) },
  panel('Tables', '.figures:not(.visually-hidden)'),
  { name: 'Keypad', show: (page, { openId }) => showKeypad(page, openId) },
  { name: 'header menu', show: (page, { openId }) => showHeaderMenu(page, openId) },
  { name: 'Moves', show: (page, { openId }) => showMoves(page, openId) },
  { name: 'Moves for all primaries', show: (page, { openId }) => showHeaderMoves(page, openId) },
  { name: 'proposals for a primary', show: (page, { bareId }) => showProposals(page, bareId) },
  { name: 'proposal for the whole header', show: (page, { bareId }) => showWholeHeader(page, bareId) },
  { name: 'limits of moves', show: (page, { openId }) => showMoves(page, openId, 'Limits') },
  place('missing header', { hash: '#/bench/no-such-header', heading: 'This header could not be opened' }),
  { name: 'cut plan', show: (page, { plannedId }) => showCutPlan(page, plannedId) },
  { name: 'sheets', show: (page, { openId }) => showSheet(page, openId) },
  place('shelf', PLACES.shelf),
  place('archive', PLACES.archive),
  { name: 'similar headers', show: (page, { openId }) => showSimilar(page, openId) },
  { name: 'compare', show: (page, furnished) => showCompared(page, furnished) },
  place('shop figures', { hash: '#/figures', heading: 'Shop figures' }),
  place('help', PLACES.help),
  { name: 'command search', show: (page, { openId }) => searchCommands(page, openId) },
  { name: 'import', show: (page, { openId }) => offerFile(page, openId) },
  dialog('New header', /new header/i),
  dialog('Finish this header', /^Finish /),
  dialog('Preferences', /preferences/i),
  dialog('Backups', /backups/i),
  dialog('Keys', /keys/i),
  dialog('Export finished headers', /^Export finished/),
  dialog('Bring finished headers back', /^Bring finished/),
  dialog('Back up everything to a file', /^Back up everything/),
  dialog('Restore everything from a file', /^Restore everything/),
];
