/** Closing the window: the page brings in what it holds first, and what cannot be saved is asked about. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { demoHeader, readHeader } from '../../../core/index.ts';
import { doubleEvent, type MessageOptions } from '../electron-double.ts';
import { makePageFolder } from '../page/page-folder.ts';
import { becomeReady, callFromPage, launchBuilt, type ShellRun, until } from './built-shell.ts';

const pageFolder = makePageFolder();
let shell: ShellRun | null = null;

afterEach(async () => {
  const last = shell;
  shell = null;
  if (last === null || last.electron.app.log.includes('gone')) return;
  for (const window of last.electron.BrowserWindow.all) window.webContents.crashed = true;
  last.electron.app.quit();
  await until(() => last.electron.app.log.includes('gone'), 'the end');
});

async function readyShell(): Promise<ShellRun> {
  shell = launchBuilt({ pageFolder });
  await becomeReady(shell);
  return shell;
}

const eventsTold = (run: ShellRun) => run.window().webContents.sent.map(({ message }) => message as { kind: string });

describe('closing', () => {
  test('the window waits for the page, and then the program goes', async () => {
    const run = await readyShell();
    run.window().close();
    expect(run.window().destroyed).toBe(false);
    expect(eventsTold(run)).toEqual([{ kind: 'flush' }]);
    await callFromPage(run, 'readyToClose', {});
    await until(() => run.electron.app.log.includes('gone'), 'the end');
    expect(run.window().destroyed).toBe(true);
  });

  test('closing twice asks the page once', async () => {
    const run = await readyShell();
    run.window().close();
    run.window().close();
    run.electron.app.quit();
    expect(eventsTold(run)).toEqual([{ kind: 'flush' }]);
  });

  test('a page that is gone is not waited for', async () => {
    const run = await readyShell();
    run.window().webContents.crashed = true;
    run.window().close();
    expect(run.window().destroyed).toBe(true);
    expect(eventsTold(run)).toEqual([]);
  });

  test('a page that goes while it is waited for is waited for no longer', async () => {
    const run = await readyShell();
    run.window().close();
    run.window().webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    await until(() => run.window().destroyed, 'the window');
  });

  test('Windows ending the session flushes when it asks, and closes when it does', async () => {
    const run = await readyShell();
    run.window().emit('query-session-end', doubleEvent({ reasons: ['shutdown'] }));
    expect(eventsTold(run)).toEqual([{ kind: 'flush' }]);
    run.window().emit('session-end', doubleEvent({ reasons: ['shutdown'] }));
    await callFromPage(run, 'readyToClose', {});
    await until(() => run.electron.app.log.includes('gone'), 'the end');
  });

  test('a session that goes on after all keeps its window', async () => {
    const run = await readyShell();
    run.window().emit('query-session-end', doubleEvent({ reasons: ['shutdown'] }));
    await callFromPage(run, 'readyToClose', {});
    await windowStays(run);
  });

  test('the system shutting down is asked to wait, and the page flushed', async () => {
    const run = await readyShell();
    const event = doubleEvent({});
    run.electron.powerMonitor.emit('shutdown', event);
    expect(event.defaultPrevented).toBe(true);
    expect(eventsTold(run)).toEqual([{ kind: 'flush' }]);
    await callFromPage(run, 'readyToClose', {});
    await until(() => run.electron.app.log.includes('gone'), 'the end');
  });
});

/** A call of the page's is answered, after whatever was set off before it, and the window is still there. */
async function windowStays(run: ShellRun): Promise<void> {
  await callFromPage(run, 'start', {});
  expect(run.window().destroyed).toBe(false);
}

/** The questions asked so far. */
function questions(run: ShellRun): readonly MessageOptions[] {
  return run.electron.dialog.shown
    .filter(({ kind }) => kind === 'message')
    .map(({ options }) => options as MessageOptions);
}

describe('closing with steps that could not be saved', () => {
  const header = { ...demoHeader('unsaved1'), name: 'Tow rig' };
  const UNSAVED = { header, steps: 3, reason: 'the disk is full.' };

  /** Closes the window of a page that says what it cannot save; the person presses these buttons, one a question. */
  async function closeHeldUp(presses: readonly (string | null)[], unsaved = UNSAVED): Promise<ShellRun> {
    const run = await readyShell();
    const left = [...presses];
    run.electron.dialog.press = () => left.shift() ?? null;
    run.window().close();
    await callFromPage(run, 'notYetSaved', unsaved);
    await until(() => questions(run).length > 0, 'the question');
    return run;
  }

  test('the person is asked at once, with what is not saved, why, and three ways on, the safest first', async () => {
    const run = await closeHeldUp([null]);
    expect(questions(run)).toHaveLength(1);
    expect(questions(run)[0]).toMatchObject({
      message: '3 steps are not saved in Tow rig',
      detail: expect.stringContaining('Not saved: the disk is full.'),
      buttons: ['Wait', 'Save a copy…', 'Discard'],
      defaultId: 0,
      cancelId: 0,
    });
    await windowStays(run);
  });

  test('wait: the window stays, and the next closing asks the page anew', async () => {
    const run = await closeHeldUp(['Wait']);
    await windowStays(run);
    // Saved in the meantime: that alone closes nothing under the hands of someone at work.
    await callFromPage(run, 'readyToClose', {});
    await windowStays(run);
    run.window().close();
    expect(eventsTold(run)).toEqual([{ kind: 'flush' }, { kind: 'flush' }]);
    await callFromPage(run, 'readyToClose', {});
    await until(() => run.electron.app.log.includes('gone'), 'the end');
    expect(questions(run)).toHaveLength(1);
  });

  test('discard: the window goes', async () => {
    const run = await closeHeldUp(['Discard']);
    await until(() => run.electron.app.log.includes('gone'), 'the end');
  });

  test('save a copy: the file holds the header as the page shows it, and then the window goes', async () => {
    const run = await readyShell();
    const filePath = join(run.dataFolder, 'elsewhere.json');
    run.electron.dialog.saveAnswer = { canceled: false, filePath };
    run.electron.dialog.press = () => 'Save a copy…';
    run.window().close();
    await callFromPage(run, 'notYetSaved', UNSAVED);
    await until(() => run.electron.app.log.includes('gone'), 'the end');
    expect(readHeader(readFileSync(filePath, 'utf8'))).toEqual({ ok: true, value: header });
    expect(run.electron.dialog.shown.find(({ kind }) => kind === 'save')?.options).toMatchObject({
      defaultPath: 'Tow rig (copy).evenrun.json',
    });
  });

  test('no copy came about: the question is asked again', async () => {
    const run = await closeHeldUp(['Save a copy…', 'Save a copy…', 'Wait']);
    await until(() => questions(run).length === 3, 'the third question');
    await windowStays(run);
  });

  test('all saved while the question stands: it goes away, and the window with it', async () => {
    const run = await closeHeldUp([null]);
    await callFromPage(run, 'readyToClose', {});
    await until(() => run.electron.app.log.includes('gone'), 'the end');
  });

  test('closing again while the question stands asks nothing more', async () => {
    const run = await closeHeldUp([null]);
    run.window().close();
    run.electron.app.quit();
    await windowStays(run);
    expect(questions(run)).toHaveLength(1);
    expect(eventsTold(run)).toEqual([{ kind: 'flush' }]);
  });

  test('a single step is told in the singular', async () => {
    const run = await closeHeldUp([null], { ...UNSAVED, steps: 1 });
    expect(questions(run)[0]?.message).toBe('1 step is not saved in Tow rig');
  });

  test('unasked, a page that cannot save raises no question', async () => {
    const run = await readyShell();
    await callFromPage(run, 'notYetSaved', UNSAVED);
    await windowStays(run);
    expect(questions(run)).toEqual([]);
  });

  test('Windows asking about the end of the session raises no question either', async () => {
    const run = await readyShell();
    run.window().emit('query-session-end', doubleEvent({ reasons: ['shutdown'] }));
    await callFromPage(run, 'notYetSaved', UNSAVED);
    await windowStays(run);
    expect(questions(run)).toEqual([]);
    run.window().close();
    expect(eventsTold(run)).toEqual([{ kind: 'flush' }, { kind: 'flush' }]);
  });
});

describe('closing a page that does not answer', () => {
  test('nothing is discarded after five seconds: the person is asked, and no copy is promised', async () => {
    const run = await readyShell();
    run.electron.dialog.press = () => null;
    const startMs = performance.now();
    run.electron.app.quit();
    await until(() => questions(run).length > 0, 'the question');
    expect(performance.now() - startMs).toBeGreaterThan(4_900);
    expect(run.window().destroyed).toBe(false);
    expect(questions(run)[0]).toMatchObject({ message: 'The page does not answer', buttons: ['Wait', 'Discard'] });
    // It was only slow.
    await callFromPage(run, 'readyToClose', {});
    await until(() => run.electron.app.log.includes('gone'), 'the end');
  });

  test('the person may let it go', async () => {
    const run = await readyShell();
    run.electron.dialog.press = () => 'Discard';
    run.window().close();
    await until(() => run.electron.app.log.includes('gone'), 'the end');
  });
});
