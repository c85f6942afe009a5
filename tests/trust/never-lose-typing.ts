/** R20: typing is broken off at every keystroke in every way that a page can end, and nothing entered is lost. */

import type { Page } from 'playwright-core';
import type { Header } from '../../core/header/header.ts';
import { newHeader } from '../../core/header/new-header.ts';
import { type AppUnderTest, launchApp } from '../e2e/app-under-test.ts';

/** Forty keys: five entries accepted with Enter, and a sixth that is not. */
const LINES = ['2 1/4', 'b90 60', '1 3/8', 'b75 90', '15 1/2'] as const;
const KEYS: readonly string[] = [...LINES.flatMap((line) => [...line, 'Enter']), ...'b45 180'];

/** Renderer killed; window closed; page reloaded; program quit; backend gone at once, as when the session ends. */
export const ENDINGS = ['kill', 'close', 'reload', 'quit', 'sessionEnd'] as const;
export type Ending = (typeof ENDINGS)[number];

export interface TypingFinding {
  readonly cases: number;
  /** Entries that were accepted with Enter and are not on disk. */
  readonly lostEntries: readonly string[];
  /** Half-typed text that was not offered again as it stood. */
  readonly lostTexts: readonly string[];
}

/** What a person who has just typed a key and loses the program at once would call "typed": see `settleMs`. */
export interface TypingOptions {
  /** Every n-th keystroke only. */
  readonly every: number;
  /** How long after the key the page ends. */
  readonly settleMs: number;
}

function emptyHeader(id: string): Header {
  const primary = { id: 'primary-1', name: '1', tube: null, port: null, inletId: null, pieces: [] };
  return { ...newHeader({ id, name: `Typing ${id}` }), primaries: [primary] };
}

function entryLine(page: Page) {
  return page.getByRole('combobox', { name: 'Next piece' });
}

async function endPage(app: AppUnderTest, page: Page, ending: Ending): Promise<AppUnderTest> {
  switch (ending) {
    case 'kill': {
      const control = await app.context.newCDPSession(page);
      const crashed = page.waitForEvent('crash');
      // The answer never comes: the process that would give it is gone.
      control.send('Page.crash').catch(() => undefined);
      await crashed;
      await page.close();
      return app;
    }
    case 'close':
      await page.close({ runBeforeUnload: false });
      return app;
    case 'reload':
      await page.reload();
      return app;
    case 'quit':
      return await app.restart();
    case 'sessionEnd':
      app.gate.break();
      await page.close();
      app.gate.open();
      return app;
  }
}

async function pageFor(app: AppUnderTest, headerId: string): Promise<Page> {
  const page = await app.context.newPage();
  page.on('dialog', (dialog) => void dialog.accept());
  await page.goto(app.host.address);
  await page.evaluate((id) => {
    location.hash = `#/bench/${id}`;
  }, headerId);
  await entryLine(page).waitFor();
  return page;
}

interface Case {
  readonly ending: Ending;
  readonly keys: number;
  readonly settleMs: number;
}

interface CaseEnd {
  readonly app: AppUnderTest;
  readonly lostEntries: readonly string[];
  readonly lostTexts: readonly string[];
}

async function breakOff(before: AppUnderTest, { ending, keys, settleMs }: Case): Promise<CaseEnd> {
  const imported = await before.backend.must('importHeader', { header: emptyHeader(`typing-${ending}-${keys}`) });
  const headerId = imported.header.id;
  const page = await pageFor(before, headerId);
  await entryLine(page).focus();
  const pressed = KEYS.slice(0, keys);
  for (const key of pressed) await page.keyboard.press(key);
  if (settleMs > 0) await page.waitForTimeout(settleMs);
  const app = await endPage(before, page, ending);
  const { header } = await app.backend.must('openHeader', { headerId });
  const accepted = pressed.filter((key) => key === 'Enter').length;
  const onDisk = header.primaries[0]?.pieces.length ?? 0;
  const typed = pressed.slice(pressed.lastIndexOf('Enter') + 1).join('');
  const after = await pageFor(app, headerId);
  const offered = await entryLine(after).inputValue();
  await after.close();
  const where = `${ending} after key ${keys}`;
  return {
    app,
    lostEntries: onDisk === accepted ? [] : [`${where}: ${onDisk} of ${accepted} entries on disk`],
    lostTexts: offered === typed ? [] : [`${where}: "${offered}" offered, "${typed}" typed`],
  };
}

export async function runNeverLoseTyping({ every, settleMs }: TypingOptions): Promise<TypingFinding> {
  let app = await launchApp({ host: 'loopback' });
  const lostEntries: string[] = [];
  const lostTexts: string[] = [];
  let cases = 0;
  try {
    for (const ending of ENDINGS) {
      for (let keys = 1; keys <= KEYS.length; keys += every) {
        const end = await breakOff(app, { ending, keys, settleMs });
        app = end.app;
        cases += 1;
        lostEntries.push(...end.lostEntries);
        lostTexts.push(...end.lostTexts);
      }
    }
  } finally {
    await app.end();
  }
  return { cases, lostEntries, lostTexts };
}
