/** What may be said after `npm start --`. */

import { describe, expect, test } from 'vitest';
import { readStartOptions } from '../../../electron/start/start-options.ts';

const read = (...args: string[]) => readStartOptions(args, '/home/ann');

test('nothing said: the desktop window, the usual folder', () => {
  expect(read()).toEqual({ ok: true, value: { inBrowser: false, opensBrowser: true, dataFolder: null, port: 0 } });
});

test('everything said', () => {
  expect(read('--browser', '--no-open', '--data', 'my shop', '--port', '4100')).toEqual({
    ok: true,
    value: { inBrowser: true, opensBrowser: false, dataFolder: '/home/ann/my shop', port: 4100 },
  });
});

test('a port means the browser', () => {
  expect(read('--port=1')).toMatchObject({ value: { inBrowser: true } });
});

describe('refused with a sentence', () => {
  test.each([
    [['--port', '65536'], 'whole number from 0 to 65535'],
    [['--port', '-1'], 'port'],
    [['--port', '80.5'], 'whole number'],
    [['--port='], 'whole number'],
    [['--data='], 'path of a folder'],
    [['--data'], 'data'],
    [['--host', 'x'], '--host'],
    [['file.json'], 'file.json'],
  ])('%j', (args, words) => {
    const options = read(...args);
    expect(options.ok).toBe(false);
    if (!options.ok) expect(options.problems.join(' ')).toContain(words);
  });
});
