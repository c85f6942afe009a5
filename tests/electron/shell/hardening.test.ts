/** Pages cannot leave, open windows, hold web views, or be permitted anything. */

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { ContentsDouble, doubleEvent, electron, WindowDouble } from '../electron-double.ts';
import { hostileAddress } from './hostile-addresses.ts';

vi.mock('electron', () => import('../electron-double.ts'));

const OWN = 'app://evenrun/index.html';

/** Every permission that Electron's own types name. */
function permissionNames(): readonly string[] {
  const types = readFileSync(new URL('../../../node_modules/electron/electron.d.ts', import.meta.url), 'utf8');
  const line = types.split('\n').find((text) => text.includes('setPermissionRequestHandler(handler'));
  const list = /permission: ([^,)]+), callback/.exec(line ?? '')?.[1] ?? '';
  return [...list.matchAll(/'([^']+)'/g)].map((match) => match[1] ?? '');
}

beforeAll(async () => {
  const { confineAllPages, permitCopyingOnly } = await import('../../../electron/shell/hardening.ts');
  confineAllPages();
  permitCopyingOnly(electron.session.defaultSession as never);
});

function newContents(): ContentsDouble {
  const contents = new ContentsDouble();
  electron.app.emit('web-contents-created', doubleEvent({}), contents);
  return contents;
}

function isStopped(contents: ContentsDouble, name: string, details: { url: string; isMainFrame: boolean }): boolean {
  const event = doubleEvent(details);
  contents.emit(name, event);
  return event.defaultPrevented;
}

describe.each(['will-navigate', 'will-frame-navigate', 'will-redirect'])('%s', (name) => {
  const contents = new ContentsDouble();
  beforeAll(() => {
    electron.app.emit('web-contents-created', doubleEvent({}), contents);
  });

  test('goes to the page itself', () => {
    expect(isStopped(contents, name, { url: OWN, isMainFrame: true })).toBe(false);
  });

  test('is stopped for each of 10,000 other addresses', () => {
    fc.assert(
      fc.property(hostileAddress, (url) => isStopped(contents, name, { url, isMainFrame: true })),
      { numRuns: 10_000 },
    );
  });
});

test('a frame within the page goes nowhere, not even to the page', () => {
  expect(isStopped(newContents(), 'will-frame-navigate', { url: OWN, isMainFrame: false })).toBe(true);
});

test('no window is ever opened, for 10,000 addresses and for the page itself', () => {
  const handler = newContents().windowOpenHandler;
  expect(handler?.({ url: OWN })).toEqual({ action: 'deny' });
  fc.assert(
    fc.property(hostileAddress, (url) => handler?.({ url }).action === 'deny'),
    { numRuns: 10_000 },
  );
});

test('no web view is ever attached', () => {
  const event = doubleEvent({});
  newContents().emit('will-attach-webview', event, {}, {});
  expect(event.defaultPrevented).toBe(true);
});

test('a window is confined before it loads anything', () => {
  const window = new WindowDouble({});
  expect(window.loaded).toBeNull();
  expect(window.webContents.windowOpenHandler).not.toBeNull();
  window.destroyed = true;
});

describe('permissions', () => {
  const names = permissionNames();
  const handlers = electron.session.defaultSession.handlers;

  test('the list of permissions was found in the types', () => {
    expect(names.length).toBeGreaterThan(30);
    expect(names).toContain('geolocation');
  });

  const COPYING = 'clipboard-sanitized-write';
  type Asking = { readonly isMainFrame: boolean; readonly requestingUrl?: string };
  const OWN_FRAME: Asking = { isMainFrame: true, requestingUrl: OWN };

  /** How both handlers answer; they must agree, for Chromium looks up what was once granted. */
  function answers(permission: string, asking: Asking): readonly unknown[] {
    const answer = vi.fn();
    (handlers['permissionRequest'] as (...rest: unknown[]) => void)({}, permission, answer, asking);
    const lookedUp = (handlers['permissionCheck'] as (...rest: unknown[]) => unknown)(null, permission, OWN, asking);
    return [...answer.mock.calls.flat(), lookedUp];
  }

  test.each(names.filter((name) => name !== COPYING))('%s is denied to the page itself', (permission) => {
    expect(answers(permission, OWN_FRAME)).toEqual([false, false]);
  });

  test('text may be put on the clipboard by the main frame of the page itself', () => {
    expect(names).toContain(COPYING);
    expect(answers(COPYING, OWN_FRAME)).toEqual([true, true]);
  });

  test.each<[string, Asking]>([
    ['a frame within the page', { ...OWN_FRAME, isMainFrame: false }],
    ['another page', { isMainFrame: true, requestingUrl: 'https://evil.example/' }],
    ['a look-alike', { isMainFrame: true, requestingUrl: 'app://evenrun.example/' }],
    ['no page at all', { isMainFrame: true }],
  ])('and not by %s', (_who, asking) => {
    expect(answers(COPYING, asking)).toEqual([false, false]);
  });

  test('nor read from it', () => {
    expect(names.filter((name) => name.includes('clipboard') && answers(name, OWN_FRAME).includes(true))).toEqual([
      COPYING,
    ]);
  });

  test('devices, screens and pairings are denied', () => {
    expect((handlers['devicePermission'] as (...rest: unknown[]) => unknown)({})).toBe(false);
    const streams = vi.fn();
    (handlers['displayMedia'] as (...rest: unknown[]) => void)({}, streams);
    expect(streams.mock.calls).toEqual([[{}]]);
    const pairing = vi.fn();
    (handlers['bluetoothPairing'] as (...rest: unknown[]) => void)({}, pairing);
    expect(pairing.mock.calls).toEqual([[{ confirmed: false }]]);
  });
});
