/** What is taken from a command line, and what is left to Chromium. */

import { expect, test } from 'vitest';
import { readLaunchArguments } from '../../../electron/shell/launch-arguments.ts';

const read = (...rest: string[]) => readLaunchArguments(['/opt/evenrun', ...rest], '/home/ann');

test('nothing given: nothing to open, the usual folder', () => {
  expect(read()).toEqual({ dataFolder: null, files: [] });
});

test('files are taken in order, relative to where the command was given', () => {
  expect(read('a.evenrun.json', '/shop/b.EVENRUN', '../c.json').files).toEqual([
    '/home/ann/a.evenrun.json',
    '/shop/b.EVENRUN',
    '/home/c.json',
  ]);
});

test('switches of Chromium, folders and other kinds of file are left alone', () => {
  expect(
    read('--allow-file-access', '--x=y.json', '-psn_0_1.json', '.', '/opt/app', 'a.txt', 'a.sqlite').files,
  ).toEqual([]);
});

test('the program itself is no file, whatever its name', () => {
  expect(readLaunchArguments(['/opt/evenrun.json'], '/').files).toEqual([]);
});

test('the last data folder counts; an empty one is none', () => {
  expect(read('--data=one', '--data=two words').dataFolder).toBe('/home/ann/two words');
  expect(read('--data=').dataFolder).toBeNull();
});
