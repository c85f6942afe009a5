/** The built main process from start to end, against the double of Electron and a real store on disk. */

import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { temporaryFolder } from '../../temporary-folder.ts';
import { doubleEvent } from '../electron-double.ts';
import { makePageFolder } from '../page/page-folder.ts';
import { becomeReady, callFromPage, launchBuilt, type ShellRun, until } from './built-shell.ts';
import type { OpenedHeaderReply, WorkReply } from './replies.ts';

const pageFolder = makePageFolder();
let shell: ShellRun | null = null;

afterEach(async () => {
  const last = shell;
  shell = null;
  if (last === null || last.electron.app.log.includes('gone') || !last.electron.app.isReady) return;
  for (const window of last.electron.BrowserWindow.all) window.webContents.crashed = true;
  last.electron.app.quit();
  await until(() => last.electron.app.log.includes('gone'), 'the end');
});

function launch(options: Partial<Parameters<typeof launchBuilt>[0]> = {}): ShellRun {
  shell = launchBuilt({ pageFolder, ...options });
  return shell;
}

async function readyShell(options: Partial<Parameters<typeof launchBuilt>[0]> = {}): Promise<ShellRun> {
  const started = launch(options);
  await becomeReady(started);
  return started;
}

const eventsTold = (run: ShellRun) => run.window().webContents.sent.map(({ message }) => message as { kind: string });

describe('starting', () => {
  test('the sandbox and the lock come before the app is ready', async () => {
    const { electron } = await readyShell();
    expect(electron.app.log.slice(0, 3)).toEqual(['requestSingleInstanceLock', 'enableSandbox', 'ready']);
    expect(electron.protocol.schemes).not.toBeNull();
  });

  test('without the lock the program ends at once and touches nothing', () => {
    const run = launch({
      before: (electron) => {
        electron.app.hasLock = false;
      },
    });
    expect(run.electron.app.log).toEqual(['requestSingleInstanceLock', 'exit 0']);
    expect(run.electron.protocol.schemes).toBeNull();
    expect(existsSync(join(run.dataFolder, 'evenrun.sqlite'))).toBe(false);
  });

  test('another data folder has a lock of its own', () => {
    const run = launch();
    expect(run.electron.app.getPath('userData')).toBe(join(run.dataFolder, 'window'));
  });

  test('the window is shut to everything it need not have, and keeps its place', async () => {
    const run = await readyShell();
    expect(run.electron.BrowserWindow.all).toHaveLength(1);
    expect(run.window().loaded).toBe('app://evenrun/');
    expect(run.window().options).toMatchObject({ name: 'bench', windowStatePersistence: true, show: false });
    expect(run.window().options['webPreferences']).toEqual({
      preload: join(run.folder, 'preload/preload.cjs'),
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      navigateOnDragDrop: false,
      spellcheck: false,
    });
  });

  test('the window shows once it has something to show', async () => {
    const window = (await readyShell()).window();
    expect(window.calls).toEqual([]);
    window.emit('ready-to-show');
    expect(window.calls).toEqual(['show']);
  });
});

describe('calls', () => {
  test('a header made by the page is on disk and in the menu of recent headers', async () => {
    const run = await readyShell();
    expect(await callFromPage(run, 'start', {})).toMatchObject({
      ok: true,
      value: { state: 'ready', version: '9.9.9' },
    });
    const made = (await callFromPage(run, 'createHeader', {
      requestId: 'tow-rig-and-co',
      name: 'Tow rig & co',
      from: 'demo',
    })) as OpenedHeaderReply;
    expect(made).toMatchObject({ ok: true, value: { header: { name: 'Tow rig & co' } } });
    expect(existsSync(join(run.dataFolder, 'evenrun.sqlite'))).toBe(true);
    await until(() => JSON.stringify(run.electron.Menu.shown.at(-1)).includes('Tow rig && co'), 'the menu');
  });

  test('what is not in the contract is refused in the shape of the contract', async () => {
    const run = await readyShell();
    expect(await callFromPage(run, 'toString', {})).toMatchObject({
      ok: false,
      problems: [{ kind: 'invalidRequest' }],
    });
    expect(await callFromPage(run, 'openHeader', { headerId: 1 })).toMatchObject({ ok: false });
  });
});

describe('exporting', () => {
  async function exportDemo(run: ShellRun): Promise<unknown> {
    await callFromPage(run, 'start', {});
    const made = (await callFromPage(run, 'createHeader', {
      requestId: 'tow-rig-request',
      name: 'Tow rig',
      from: 'demo',
    })) as OpenedHeaderReply;
    return callFromPage(run, 'exportHeader', { headerId: made.value.header.id });
  }

  test('the file stands where the user said, and the system knows of it', async () => {
    const run = await readyShell();
    const filePath = join(run.dataFolder, 'saved here.json');
    run.electron.dialog.saveAnswer = { canceled: false, filePath };
    expect(await exportDemo(run)).toEqual({ ok: true, value: { kind: 'saved', fileName: 'saved here.json' } });
    expect(JSON.parse(readFileSync(filePath, 'utf8'))).toMatchObject({ header: { name: 'Tow rig' } });
    expect(run.electron.app.recentDocuments).toEqual([filePath]);
    expect(run.electron.dialog.shown[0]?.options).toMatchObject({ defaultPath: 'Tow rig.evenrun.json' });
  });

  test('called off is called off', async () => {
    expect(await exportDemo(await readyShell())).toEqual({ ok: true, value: { kind: 'cancelled' } });
  });

  test('a place that does not take the file is explained, and nothing is claimed', async () => {
    const run = await readyShell();
    run.electron.dialog.saveAnswer = { canceled: false, filePath: join(run.dataFolder, 'missing/folder/x.json') };
    expect(await exportDemo(run)).toEqual({ ok: true, value: { kind: 'cancelled' } });
    expect(run.electron.dialog.shown.at(-1)).toMatchObject({
      kind: 'message',
      options: { message: 'The file was not saved.', detail: expect.stringContaining('is not there') },
    });
  });
});

describe('files that are written piece by piece', () => {
  /** Pulls the work to its end; gives what came of it. */
  async function finished(run: ShellRun, call: string, request: object): Promise<unknown> {
    const begun = (await callFromPage(run, call, request)) as { value: { workId: string | null } };
    if (begun.value.workId === null) return null;
    for (;;) {
      const asked = { workId: begun.value.workId, piece: null };
      const reply = (await callFromPage(run, 'continueWork', asked)) as WorkReply;
      if (!reply.ok || reply.value.state === 'done') return reply;
      // The desktop writes them itself.
      expect(reply.value.piece).toBeNull();
    }
  }

  async function shellWithFinished(): Promise<ShellRun> {
    const run = await readyShell();
    await callFromPage(run, 'start', {});
    const made = (await callFromPage(run, 'createHeader', {
      requestId: 'tow-rig-request',
      name: 'Tow rig',
      from: 'demo',
    })) as OpenedHeaderReply;
    const steps = [{ action: 'do', stepId: 'finish-tow-rig', edit: { kind: 'finishHeader' } }];
    await callFromPage(run, 'commitSteps', { headerId: made.value.header.id, baseRevision: 0, steps });
    return run;
  }

  test('finished headers stand where the user said, a line each', async () => {
    const run = await shellWithFinished();
    const filePath = join(run.dataFolder, 'out.jsonl');
    run.electron.dialog.saveAnswer = { canceled: false, filePath };
    expect(await finished(run, 'beginExport', { headerIds: null })).toMatchObject({
      value: { done: { kind: 'exported', headers: 1, fileName: 'out.jsonl' } },
    });
    expect(run.electron.dialog.shown[0]?.options).toMatchObject({ defaultPath: 'Finished headers.finished.jsonl' });
    expect(JSON.parse(readFileSync(filePath, 'utf8'))).toMatchObject({ header: { name: 'Tow rig' } });
  });

  test('everything stands where the user said, proven', async () => {
    const run = await shellWithFinished();
    const filePath = join(run.dataFolder, 'all.sqlite');
    run.electron.dialog.saveAnswer = { canceled: false, filePath };
    expect(await finished(run, 'beginBackup', {})).toMatchObject({
      value: { done: { kind: 'backedUp', headers: 1, finished: 1, damaged: [], fileName: 'all.sqlite' } },
    });
    expect(readFileSync(filePath).toString('latin1', 0, 15)).toBe('SQLite format 3');
  });

  test('a place that does not take the file is told to the page, and called off is called off', async () => {
    const run = await shellWithFinished();
    expect(await finished(run, 'beginBackup', {})).toBeNull();
    const filePath = join(run.dataFolder, 'missing/folder/x.sqlite');
    run.electron.dialog.saveAnswer = { canceled: false, filePath };
    for (const [call, request] of [
      ['beginBackup', {}],
      ['beginExport', { headerIds: null }],
    ] as const)
      expect(await finished(run, call, request)).toMatchObject({ ok: false, problems: [{ fault: 'missing' }] });
  });
});

describe('files from the system', () => {
  const handedOver = (name: string) => ({
    kind: 'openFile',
    fileName: name,
    content: Buffer.from('{}').toString('base64'),
  });
  const filesFolder = temporaryFolder('files');
  const fileNamed = (name: string) => {
    writeFileSync(join(filesFolder, name), '{}');
    return join(filesFolder, name);
  };

  test('on the command line, and from macOS before the app was ready', async () => {
    const run = launch({ argv: [fileNamed('one.evenrun.json')] });
    const event = doubleEvent({});
    run.electron.app.emit('open-file', event, fileNamed('two.evenrun.json'));
    expect(event.defaultPrevented).toBe(true);
    await becomeReady(run);
    await until(() => eventsTold(run).length === 2, 'both files');
    expect(eventsTold(run)).toEqual(
      expect.arrayContaining([handedOver('one.evenrun.json'), handedOver('two.evenrun.json')]),
    );
    expect(run.electron.app.recentDocuments).toHaveLength(2);
  });

  test('through a second start, which also brings the window forward', async () => {
    const run = await readyShell();
    fileNamed('three.json');
    run.electron.app.emit('second-instance', doubleEvent({}), ['/opt/evenrun', '--flag', 'three.json'], filesFolder);
    await until(() => eventsTold(run).length === 1, 'the file');
    expect(eventsTold(run)).toEqual([handedOver('three.json')]);
    expect(run.window().calls).toEqual(['restore', 'show', 'focus']);
  });

  test('through the dialog of the menu', async () => {
    const run = await readyShell();
    run.electron.dialog.openAnswer = { canceled: false, filePaths: [fileNamed('four.json')] };
    type MenuItem = { label?: string; submenu?: MenuItem[]; click?: () => void };
    const [fileMenu] = run.electron.Menu.shown.at(-1) as MenuItem[];
    fileMenu?.submenu?.find((item) => item.label === 'Open a header file…')?.click?.();
    await until(() => eventsTold(run).length === 1, 'the file');
    expect(eventsTold(run)).toEqual([handedOver('four.json')]);
  });

  test('a file that cannot be opened is explained and not handed over', async () => {
    const run = await readyShell({ argv: [join(filesFolder, 'gone.json')] });
    await until(() => run.electron.dialog.shown.length === 1, 'the message');
    expect(run.electron.dialog.shown[0]?.options).toMatchObject({
      message: 'This file was not opened.',
      detail: expect.stringContaining('is not there'),
    });
    expect(eventsTold(run)).toEqual([]);
  });
});

describe('a fault that nobody caught', () => {
  test('is written down, told once, and ends the program', async () => {
    const run = await readyShell();
    run.onUncaught(new Error('a defect of ours'));
    const log = readFileSync(join(run.dataFolder, 'crashes.log'), 'utf8');
    expect(log.trim().split('\n')).toHaveLength(1);
    expect(JSON.parse(log)).toMatchObject({ crash: expect.stringContaining('a defect of ours'), version: '9.9.9' });
    expect(run.electron.dialog.shown).toHaveLength(1);
    expect(run.electron.dialog.shown[0]).toMatchObject({
      kind: 'error',
      options: { content: expect.stringContaining('Every entry marked as saved is safe') },
    });
    expect(run.electron.app.exitCode).toBe(1);
  });
});
