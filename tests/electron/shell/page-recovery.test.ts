/** A page that crashes, hangs or cannot be loaded: the built main process loads it again, or asks. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import type { MessageOptions } from '../electron-double.ts';
import { makePageFolder } from '../page/page-folder.ts';
import { becomeReady, callFromPage, launchBuilt, type ShellRun, until } from './built-shell.ts';

const pageFolder = makePageFolder();
let shell: ShellRun;

afterEach(async () => {
  if (shell.electron.app.log.includes('gone')) return;
  for (const window of shell.electron.BrowserWindow.all) window.webContents.crashed = true;
  shell.electron.app.quit();
  await until(() => shell.electron.app.log.includes('gone'), 'the end');
});

async function readyShell(): Promise<ShellRun> {
  shell = launchBuilt({ pageFolder });
  await becomeReady(shell);
  return shell;
}

function questions(run: ShellRun): readonly MessageOptions[] {
  return run.electron.dialog.shown.map(({ options }) => options as MessageOptions);
}

const crashesLogged = (run: ShellRun) =>
  readFileSync(join(run.dataFolder, 'crashes.log'), 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>);

describe('a page that crashes', () => {
  test('is loaded again, written down, and the person is told where to look', async () => {
    const run = await readyShell();
    run.window().webContents.crash('oom');
    await until(() => questions(run).length === 1, 'the message');
    expect(run.window().loads).toBe(2);
    expect(run.window().webContents.crashed).toBe(false);
    expect(questions(run)[0]).toMatchObject({
      message: 'The page stopped and was loaded again',
      detail: expect.stringContaining('Look at the last entry'),
    });
    expect(crashesLogged(run)).toMatchObject([{ page: 'oom', exitCode: 133 }]);
  });

  test('a page that ended as it should is left alone', async () => {
    const run = await readyShell();
    run.window().webContents.crash('clean-exit');
    // The one after it is: whatever the first had set off would have come before.
    run.window().webContents.crash('oom');
    await until(() => questions(run).length === 1, 'the message');
    expect(run.window().loads).toBe(2);
    expect(crashesLogged(run)).toMatchObject([{ page: 'oom' }]);
  });

  test('the third time in a row the person is asked first, and may try on', async () => {
    const run = await readyShell();
    run.electron.dialog.press = ({ buttons }) => (buttons?.includes('Close Evenrun') ? null : 'Go on');
    for (const loads of [2, 3]) {
      run.window().webContents.crash('crashed');
      await until(() => run.window().loads === loads, 'the page');
    }
    run.electron.dialog.press = ({ buttons }) => buttons?.[0] ?? null;
    run.window().webContents.crash('crashed');
    await until(() => run.window().loads === 4, 'the page');
    expect(questions(run).at(-1)).toMatchObject({
      message: 'The page has stopped several times in a row',
      buttons: ['Load it again', 'Close Evenrun'],
    });
  });

  test('or end the program', async () => {
    const run = await readyShell();
    run.electron.dialog.press = ({ buttons }) => (buttons?.includes('Close Evenrun') ? 'Close Evenrun' : 'Go on');
    for (const loads of [2, 3]) {
      run.window().webContents.crash('crashed');
      await until(() => run.window().loads === loads, 'the page');
    }
    run.window().webContents.crash('crashed');
    await until(() => run.electron.app.log.includes('gone'), 'the end');
  });

  test('while its window closes, is not loaded again', async () => {
    const run = await readyShell();
    run.window().close();
    run.window().webContents.crash('crashed');
    await until(() => run.electron.app.log.includes('gone'), 'the end');
    expect(run.window().loads).toBe(1);
  });
});

describe('a page that hangs', () => {
  test('the person waits, and the question goes away when it answers again', async () => {
    const run = await readyShell();
    run.electron.dialog.press = () => null;
    run.window().emit('unresponsive');
    run.window().emit('unresponsive');
    expect(questions(run)).toHaveLength(1);
    expect(questions(run)[0]).toMatchObject({
      message: 'The page does not answer',
      buttons: ['Wait', 'Load it again'],
    });
    run.window().emit('responsive');
    // Asked anew only once the first question is gone from the screen.
    const asksAgain = () => {
      run.window().emit('unresponsive');
      return questions(run).length > 1;
    };
    await until(asksAgain, 'the second question');
    run.window().emit('unresponsive');
    expect(questions(run)).toHaveLength(2);
    expect(run.window().loads).toBe(1);
  });

  test('or has it loaded again', async () => {
    const run = await readyShell();
    run.electron.dialog.press = ({ buttons }) => (buttons?.includes('Load it again') ? 'Load it again' : 'Go on');
    run.window().emit('unresponsive');
    await until(() => run.window().loads === 2, 'the page');
    expect(crashesLogged(run)).toMatchObject([{ page: 'killed' }]);
  });
});

describe('a page that cannot be loaded', () => {
  test('at the start: the hidden window shows, the reason is said, and it can be tried again', async () => {
    shell = launchBuilt({ pageFolder });
    const run = shell;
    run.electron.dialog.press = () => {
      const window = run.window();
      window.loadFault = null;
      return 'Load it again';
    };
    const prototype = run.electron.BrowserWindow.prototype;
    const load = prototype.loadURL;
    let isFirst = true;
    prototype.loadURL = function (url) {
      if (isFirst) this.loadFault = [-324, 'ERR_EMPTY_RESPONSE'];
      isFirst = false;
      return load.call(this, url);
    };
    await becomeReady(run);
    expect(run.window().loads).toBe(2);
    expect(run.window().calls).toEqual(['show']);
    expect(questions(run)).toHaveLength(1);
    expect(questions(run)[0]).toMatchObject({
      message: 'The page could not be loaded',
      detail: expect.stringContaining('ERR_EMPTY_RESPONSE (-324).'),
    });
    // A load that fails is no fault of the program's own, which would end it.
    expect(run.electron.app.exitCode).toBeNull();
    expect(crashesLogged(run)).toMatchObject([{ page: 'not loaded', code: -324 }]);
  });

  test('the person may end the program', async () => {
    const run = await readyShell();
    run.electron.dialog.press = () => 'Close Evenrun';
    run.window().webContents.emit('did-fail-load', {}, -6, 'ERR_FILE_NOT_FOUND', 'app://evenrun/', true);
    await until(() => run.electron.app.log.includes('gone'), 'the end');
  });

  test.each([
    ['a load given up for another', [-3, 'ERR_ABORTED', 'app://evenrun/', true]],
    ['a frame within the page', [-6, 'ERR_FILE_NOT_FOUND', 'app://evenrun/', false]],
  ])('%s is nothing to ask about', async (_what, details) => {
    const run = await readyShell();
    run.window().webContents.emit('did-fail-load', {}, ...details);
    await callFromPage(run, 'start', {});
    expect(questions(run)).toEqual([]);
  });

  test('nor is it of use without its preload', async () => {
    const run = await readyShell();
    run.window().webContents.emit('preload-error', {}, '/preload.cjs', new Error('no such name'));
    await until(() => run.window().loads === 2, 'the page');
    expect(questions(run)[0]?.detail).toContain('no such name');
    expect(crashesLogged(run)).toMatchObject([{ page: 'no preload' }]);
  });
});
