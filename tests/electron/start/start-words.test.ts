/** What the person at the terminal reads while the runtime is fetched, and when it cannot be had. */

import { describe, expect, test } from 'vitest';
import { type Death, wordsForDeath } from '../../../electron/start/death-words.ts';
import { whyNotFetched } from '../../../electron/start/fetch-words.ts';
import { openerFor } from '../../../electron/start/open-browser.ts';
import { progressLine } from '../../../electron/start/progress-line.ts';
import { DownloadFailure } from '../../../electron/start/watched-download.ts';

describe('why it was not fetched', () => {
  const withCode = (code: string, more: object = {}) => Object.assign(new Error(`${code}: so it was`), { code }, more);

  test.each([
    [new TypeError('fetch failed', { cause: withCode('ENOTFOUND') }), 'is this machine connected?'],
    [new TypeError('fetch failed', { cause: withCode('ECONNRESET') }), 'broke off'],
    [withCode('ENOSPC', { path: '/shop/archive.zip' }), 'the disk is full (/shop/archive.zip)'],
    [withCode('EACCES', { path: '/opt/modules' }), 'this account may not write there (/opt/modules)'],
    [new Error('outer', { cause: new DownloadFailure('the answer was empty') }), 'the answer was empty'],
    [new TypeError('fetch failed', { cause: new Error('a thing unforeseen\n    at here') }), 'a thing unforeseen'],
    ['a text', 'a text'],
  ])('%s', (cause, words) => {
    const said = whyNotFetched(cause);
    expect(said).toContain(words);
    expect(said).not.toMatch(/\n|\.$/);
  });
});

describe('how far it is', () => {
  function drawn(isTTY: boolean, reports: readonly (readonly [number, number | null, number])[]): string {
    let [text, now] = ['', 0];
    const line = progressLine({ isTTY, write: (part) => (text += part) }, () => now);
    for (const [received, total, atMs] of reports) {
      now = atMs;
      line.show(received, total);
    }
    line.end();
    return text;
  }

  test('on a terminal one line counts up, at most ten times a second, to the last byte', () => {
    const text = drawn(true, [
      [1e6, 112e6, 0],
      [2e6, 112e6, 50],
      [45e6, 112e6, 100],
      [112e6, 112e6, 101],
    ]);
    expect(text).toBe('\r  1.0 of 112 MB, 0 %\u001b[K\r  45 of 112 MB, 40 %\u001b[K\r  112 of 112 MB, 100 %\u001b[K\n');
  });

  test('in a file there is a line a quarter', () => {
    const reports = [10, 26, 30, 55, 99, 100].map((part, at) => [part * 1e6, 100e6, at] as const);
    expect(drawn(false, reports)).toBe(
      '  26 of 100 MB, 26 %\n  55 of 100 MB, 55 %\n  99 of 100 MB, 99 %\n  100 of 100 MB, 100 %\n',
    );
  });

  test('of an untold length only what came is said', () => {
    expect(drawn(false, [[26e6, null, 0]])).toBe('  26 MB\n');
  });

  test('nothing came, nothing is drawn', () => {
    expect(drawn(true, [])).toBe('');
  });
});

describe('a runtime that dies at once', () => {
  const death = (lastWords: string, more: Partial<Death> = {}): Death => ({
    executable: '/home/ann/even run/dist/electron',
    lastWords,
    code: null,
    signal: 'SIGTRAP',
    ...more,
  });
  /** As Chromium says it. */
  const REFUSAL =
    '[13329:0614/163124.425381:FATAL:setuid_sandbox_host.cc(158)] The SUID sandbox helper binary was found, but is not configured correctly. ' +
    "Rather than run without sandboxing I'm aborting now. You need to make sure that /x/chrome-sandbox is owned by root and has mode 4755.\n";

  test('for want of a sandbox: the reason and two mends, with the path and the setting of this system', () => {
    const setting = '/proc/sys/kernel/apparmor_restrict_unprivileged_userns';
    const words = wordsForDeath(death(REFUSAL), (path) => path === setting);
    expect(words[0]).toContain('does not let Electron make its sandbox, and Evenrun does not run without one');
    const commands = words.filter((line) => line.includes('sudo')).map((line) => line.trim());
    expect(commands).toEqual([
      "sudo chown root:root '/home/ann/even run/dist/chrome-sandbox' && sudo chmod 4755 '/home/ann/even run/dist/chrome-sandbox'",
      'sudo sysctl -w kernel.apparmor_restrict_unprivileged_userns=0',
    ]);
  });

  test.each([
    ['/proc/sys/kernel/unprivileged_userns_clone', 'kernel.unprivileged_userns_clone=1'],
    ['/nowhere', 'user.max_user_namespaces=15000'],
  ])('the setting is the one that this system has: %s', (there, setting) => {
    expect(wordsForDeath(death('No usable sandbox! Update'), (path) => path === there).join('\n')).toContain(setting);
  });

  test.each([
    ['electron: error while loading shared libraries: libnss3.so: cannot open shared object file', 'libnss3.so'],
    ['[1:FATAL:electron_main_delegate.cc(288)] Running as root without it is not supported', 'ordinary user'],
    ['[5:ERROR:ozone_platform_x11.cc] Missing X server or $DISPLAY', 'could not reach the screen'],
    ['first\nlast line of all\n', '(signal SIGTRAP): last line of all'],
    ['', 'ended at once (signal SIGTRAP).'],
  ])('%s', (lastWords, words) => {
    const said = wordsForDeath(death(lastWords), () => false);
    expect(said).toHaveLength(1);
    expect(said[0]).toContain(words);
  });

  test("Windows' own numbers are told as they are known", () => {
    expect(wordsForDeath(death('', { signal: null, code: 0xc0000135 }))[0]).toContain('code 0xC0000135');
  });

  test('no words ever offer to run without the sandbox', () => {
    for (const words of [REFUSAL, '', 'Running as root without']) {
      expect(wordsForDeath(death(words)).join()).not.toMatch(/--no|disable/);
    }
  });
});

describe('the browser is opened', () => {
  const own = 'http://127.0.0.1:4100/#token=ab-C_d9';

  test.each([
    ['linux', 'xdg-open', [own]],
    ['darwin', 'open', [own]],
    ['win32', 'cmd', ['/d', '/c', 'start', '""', own]],
  ] as const)('on %s by %s', (platform, command, args) => {
    expect(openerFor(platform, own)).toEqual({ command, args });
  });

  test.each([
    'https://127.0.0.1:4100/#token=abc',
    'http://127.0.0.1.example/#token=abc',
    'http://127.0.0.1:4100/#token=a&calc',
    'http://127.0.0.1:4100/other#token=abc',
    'http://localhost:4100/#token=abc',
    '--version',
    '/etc/passwd',
    '',
  ])('and never on %s', (address) => {
    expect(openerFor('win32', address)).toBeNull();
    expect(openerFor('linux', address)).toBeNull();
  });
});
