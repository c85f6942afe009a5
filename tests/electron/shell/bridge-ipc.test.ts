/** Only the main frame of the program's own page is answered. */

import { beforeEach, expect, test, vi } from 'vitest';
import { sendToPage, serveBridge } from '../../../electron/shell/bridge-ipc.ts';
import { ContentsDouble, electron, FrameDouble, WindowDouble } from '../electron-double.ts';

vi.mock('electron', () => import('../electron-double.ts'));

const CHANNEL = 'evenrun:call';
const calls = { call: vi.fn(async () => ({ ok: true, value: {} })) };
let window: WindowDouble;

beforeEach(() => {
  electron.ipcMain.handlers.clear();
  calls.call.mockClear();
  window = new WindowDouble({});
  window.webContents.mainFrame.url = 'app://evenrun/';
  serveBridge(window as never, calls);
});

const send = (event: { sender: unknown; senderFrame: unknown }, ...rest: unknown[]) =>
  electron.ipcMain.handlers.get(CHANNEL)?.(event, ...rest) as Promise<unknown>;

function frameAt(url: string, parent: FrameDouble | null = null): FrameDouble {
  const frame = new FrameDouble(parent);
  frame.url = url;
  return frame;
}

test('the own page is answered, and its request reaches the dispatcher as it is', async () => {
  const { webContents } = window;
  const answer = await send({ sender: webContents, senderFrame: webContents.mainFrame }, 'openHeader', {
    headerId: 'a',
  });
  expect(answer).toEqual({ ok: true, value: {} });
  expect(calls.call.mock.calls).toEqual([['openHeader', { headerId: 'a' }]]);
});

test.each<[string, (own: ContentsDouble) => { sender: unknown; senderFrame: unknown }]>([
  ['a frame within the page', (own) => ({ sender: own, senderFrame: frameAt('app://evenrun/', own.mainFrame) })],
  ['no frame, for it has gone elsewhere', (own) => ({ sender: own, senderFrame: null })],
  [
    'another page altogether',
    () => {
      const other = new ContentsDouble();
      other.mainFrame.url = 'app://evenrun/';
      return { sender: other, senderFrame: other.mainFrame };
    },
  ],
  [
    'the own frame in the name of another page',
    (own) => ({ sender: new ContentsDouble(), senderFrame: own.mainFrame }),
  ],
  [
    'the main frame of another page in the name of this one',
    (own) => ({ sender: own, senderFrame: frameAt('app://evenrun/') }),
  ],
  [
    'the own page at a look-alike address',
    (own) => {
      own.mainFrame.url = 'app://evenrun.example/';
      return { sender: own, senderFrame: own.mainFrame };
    },
  ],
  [
    'the own page gone to the web',
    (own) => {
      own.mainFrame.url = 'https://evil.example/';
      return { sender: own, senderFrame: own.mainFrame };
    },
  ],
  [
    'the own page before it has loaded',
    (own) => {
      own.mainFrame.url = '';
      return { sender: own, senderFrame: own.mainFrame };
    },
  ],
])('refused: %s', async (_who, eventOf) => {
  const answer = await send(eventOf(window.webContents), 'start', {});
  expect(answer).toMatchObject({ ok: false, problems: [{ kind: 'invalidRequest', call: 'start' }] });
  expect(calls.call).not.toHaveBeenCalled();
});

test('one handler on one channel, gone with the window', () => {
  expect([...electron.ipcMain.handlers.keys()]).toEqual([CHANNEL]);
  window.destroy();
  expect(electron.ipcMain.handlers.size).toBe(0);
});

test('a closed window is told nothing, and does not mind', () => {
  sendToPage(window as never, { kind: 'flush' });
  window.destroyed = true;
  sendToPage(window as never, { kind: 'flush' });
  expect(window.webContents.sent).toEqual([{ channel: 'evenrun:event', message: { kind: 'flush' } }]);
});
