/** R20: typing is broken off at every keystroke in every way that a page can end, and nothing entered is lost. */

import type { Page, Request } from 'playwright-core';
import type { Header } from '../../core/header/header.ts';
import { newHeader } from '../../core/header/new-header.ts';
import { type AppUnderTest, launchApp } from '../e2e/app-under-test.ts';
import { entryLine, framesDrawn, openBench } from '../e2e/page-parts.ts';
import { until } from '../until.ts';

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

/** A person who ends the program has seen the last letter: so many frames, 50 ms where there are sixty a second. */
export const SETTLE_FRAMES = 3;

function emptyHeader(id: string): Header {
  const primary = { id: 'primary-1', name: '1', tube: null, port: null, inletId: null, pieces: [] };
  return { ...newHeader({ id, name: `Typing ${id}` }), primaries: [primary] };
}

/** The program and the window that is typed into. */
interface Desk {
  readonly app: AppUnderTest;
  readonly page: Page;
  /** Calls that the page has sent since the count began. */
  readonly sent: () => number;
  /** Calls that have come to the host since then. */
  readonly arrived: () => number;
  /** How many of them have no answer yet that has come back to the page. */
  readonly open: () => number;
  /** Begins the count anew: a call that a reload cuts off may never come, nor its answer. */
  readonly countAnew: () => void;
}

function deskOf(app: AppUnderTest, page: Page): Desk {
  let sent = 0;
  let before = app.gate.asked;
  const open = new Set<Request>();
  const countAnew = () => {
    sent = 0;
    before = app.gate.asked;
    open.clear();
  };
  page.on('request', (request) => {
    if (request.method() !== 'POST') return;
    sent += 1;
    open.add(request);
  });
  page.on('requestfinished', (request) => open.delete(request));
  page.on('requestfailed', (request) => open.delete(request));
  page.on('dialog', (dialog) => void dialog.accept());
  return { app, page, sent: () => sent, arrived: () => app.gate.asked - before, open: () => open.size, countAnew };
}

async function newDesk(app: AppUnderTest): Promise<Desk> {
  const desk = deskOf(app, await app.context.newPage());
  await desk.page.goto(app.host.address);
  return desk;
}

/** Resolves when what the last key had the page send within the frames that a person sees has come to the host. */
async function sentHasArrived({ page, sent, arrived }: Desk): Promise<void> {
  await framesDrawn(page, SETTLE_FRAMES);
  const sentByNow = sent();
  await until('what was sent has come to the host', () => arrived() >= sentByNow);
}

/** Resolves when the page has all answers to what it sent, and has had its frames since and sent nothing more. */
async function allIsAnswered(desk: Desk): Promise<void> {
  for (let before = -1; before !== desk.sent(); ) {
    before = desk.sent();
    await framesDrawn(desk.page, SETTLE_FRAMES);
    await until('the answers have come back to the page', () => desk.open() === 0);
  }
}

/**
 * Half-typed text waits while an earlier call is under way, which a slow host can make long. So every other case lets the
 * host catch up before the last key and ends the page as soon as that key's call has come, answered or not; the others
 * type all keys without a pause and end once the host has caught up.
 */
async function typeKeys(desk: Desk, pressed: readonly string[]): Promise<void> {
  const isEndedInCall = pressed.length % 2 === 1;
  for (const key of pressed.slice(0, -1)) await desk.page.keyboard.press(key);
  if (isEndedInCall) await allIsAnswered(desk);
  for (const key of pressed.slice(-1)) await desk.page.keyboard.press(key);
  await (isEndedInCall ? sentHasArrived(desk) : allIsAnswered(desk));
}

/** Ends the page, and opens the program again as a person would. */
async function endPage(desk: Desk, ending: Ending): Promise<Desk> {
  const { app, page } = desk;
  switch (ending) {
    case 'kill': {
      const control = await app.context.newCDPSession(page);
      const crashed = page.waitForEvent('crash');
      // The answer never comes: the process that would give it is gone.
      control.send('Page.crash').catch(() => undefined);
      await crashed;
      await page.close();
      return await newDesk(app);
    }
    case 'close':
      await page.close({ runBeforeUnload: false });
      return await newDesk(app);
    case 'reload':
      desk.countAnew();
      await page.reload();
      return desk;
    case 'quit': {
      const again = await app.restart();
      return deskOf(again, again.page);
    }
    case 'sessionEnd':
      app.gate.break();
      await page.close();
      app.gate.open();
      return await newDesk(app);
  }
}

interface Case {
  readonly ending: Ending;
  readonly keys: number;
}

interface CaseEnd {
  readonly desk: Desk;
  readonly lostEntries: readonly string[];
  readonly lostTexts: readonly string[];
}

async function breakOff(before: Desk, { ending, keys }: Case): Promise<CaseEnd> {
  const header = emptyHeader(`typing-${ending}-${keys}`);
  const headerId = (await before.app.backend.must('importHeader', { header })).header.id;
  await openBench(before.page, headerId);
  await entryLine(before.page).focus();
  await allIsAnswered(before);
  before.countAnew();
  const pressed = KEYS.slice(0, keys);
  await typeKeys(before, pressed);
  const desk = await endPage(before, ending);
  const stored = (await desk.app.backend.must('openHeader', { headerId })).header;
  const accepted = pressed.filter((key) => key === 'Enter').length;
  const onDisk = stored.primaries[0]?.pieces.length ?? 0;
  const typed = pressed.slice(pressed.lastIndexOf('Enter') + 1).join('');
  await openBench(desk.page, headerId);
  const offered = await entryLine(desk.page).inputValue();
  const where = `${ending} after key ${keys}`;
  return {
    desk,
    lostEntries: onDisk === accepted ? [] : [`${where}: ${onDisk} of ${accepted} entries on disk`],
    lostTexts: offered === typed ? [] : [`${where}: "${offered}" offered, "${typed}" typed`],
  };
}

/** The program, with a window to type into, for as many broken-off entries as are wanted. */
export interface TypingDesk {
  /** Breaks off after the first keystroke and every n-th from there. */
  breakOffAt(ending: Ending, every: number): Promise<TypingFinding>;
  end(): Promise<void>;
}

export async function openTypingDesk(): Promise<TypingDesk> {
  const app = await launchApp({ host: 'loopback' });
  let desk = deskOf(app, app.page);
  return {
    async breakOffAt(ending, every) {
      const ends: CaseEnd[] = [];
      for (let keys = 1; keys <= KEYS.length; keys += every) {
        const end = await breakOff(desk, { ending, keys });
        desk = end.desk;
        ends.push(end);
      }
      return {
        cases: ends.length,
        lostEntries: ends.flatMap(({ lostEntries }) => lostEntries),
        lostTexts: ends.flatMap(({ lostTexts }) => lostTexts),
      };
    },
    end: () => desk.app.end(),
  };
}

/** Breaks off after every n-th keystroke, in every way. */
export async function runNeverLoseTyping(every: number): Promise<TypingFinding> {
  const desk = await openTypingDesk();
  const found: TypingFinding[] = [];
  try {
    for (const ending of ENDINGS) found.push(await desk.breakOffAt(ending, every));
  } finally {
    await desk.end();
  }
  return {
    cases: found.reduce((sum, { cases }) => sum + cases, 0),
    lostEntries: found.flatMap(({ lostEntries }) => lostEntries),
    lostTexts: found.flatMap(({ lostTexts }) => lostTexts),
  };
}
