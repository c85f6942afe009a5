/** Keys match their chords and nothing else. */

import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../../electron/bridge/commands.ts';
import {
  isSafeWhileTyping,
  type KeyPress,
  matchesChord,
  showChord,
  typesOptionSign,
} from '../../../renderer/commands/key-chord.ts';

const press = (key: string, held: readonly ('ctrl' | 'meta' | 'shift' | 'alt')[] = []): KeyPress => ({
  key,
  ctrlKey: held.includes('ctrl'),
  metaKey: held.includes('meta'),
  shiftKey: held.includes('shift'),
  altKey: held.includes('alt'),
});

describe('a chord', () => {
  test('takes exactly its modifiers', () => {
    expect(matchesChord('Mod+Z', press('z', ['ctrl']), false)).toBe(true);
    expect(matchesChord('Mod+Z', press('Z', ['ctrl', 'shift']), false)).toBe(false);
    expect(matchesChord('Mod+Shift+Z', press('Z', ['ctrl', 'shift']), false)).toBe(true);
    expect(matchesChord('Mod+Z', press('z'), false)).toBe(false);
    expect(matchesChord('Mod+Z', press('z', ['ctrl', 'alt']), false)).toBe(false);
  });

  test('means Command on a Mac, where Ctrl is another key', () => {
    expect(matchesChord('Mod+K', press('k', ['meta']), true)).toBe(true);
    expect(matchesChord('Mod+K', press('k', ['ctrl']), true)).toBe(false);
    expect(matchesChord('Mod+K', press('k', ['meta']), false)).toBe(false);
  });

  test('of a sign counts whether or not the keyboard needs Shift for it', () => {
    expect(matchesChord('?', press('?', ['shift']), false)).toBe(true);
    expect(matchesChord('?', press('?'), false)).toBe(true);
    expect(matchesChord('Mod+,', press(',', ['ctrl']), false)).toBe(true);
    expect(matchesChord('Mod++', press('+', ['ctrl', 'shift']), false)).toBe(true);
  });
});

describe('Option on a Mac', () => {
  const option = (key: string, code: string, held: readonly ('meta' | 'shift')[] = []) => ({
    ...press(key, ['alt', ...held]),
    code,
  });

  test('types another sign, and the place of the key counts', () => {
    expect(matchesChord('Alt+T', option('†', 'KeyT'), true)).toBe(true);
    expect(matchesChord('Alt+A', option('å', 'KeyA'), true)).toBe(true);
    expect(matchesChord('Alt+1', option('¡', 'Digit1'), true)).toBe(true);
    expect(matchesChord('Alt+E', option('Dead', 'KeyE'), true)).toBe(true);
    expect(matchesChord('Alt+1', option('™', 'Digit2'), true)).toBe(false);
    expect(matchesChord('Alt+T', option('†', 'KeyT', ['meta']), true)).toBe(false);
  });

  test('leaves a letter that is typed as itself to its letter, wherever it lies', () => {
    expect(matchesChord('Alt+Q', option('a', 'KeyQ'), false)).toBe(false);
    expect(matchesChord('Alt+A', option('a', 'KeyQ'), false)).toBe(true);
  });

  test('types a sign where the key is no plain letter, digit or arrow', () => {
    expect(['å', '†', '¡', 'Dead'].map((key) => typesOptionSign(press(key, ['alt'])))).toEqual([
      true,
      true,
      true,
      true,
    ]);
    expect(['a', '1', 'ArrowUp'].map((key) => typesOptionSign(press(key, ['alt'])))).toEqual([false, false, false]);
    expect(typesOptionSign(press('å'))).toBe(false);
    expect(typesOptionSign(press('å', ['alt', 'meta']))).toBe(false);
  });

  test('without Option, and on keys that are no letters, the place says nothing', () => {
    expect(matchesChord('T', { ...press('†'), code: 'KeyT' }, true)).toBe(false);
    expect(matchesChord('Alt+ArrowUp', option('ArrowUp', 'ArrowUp'), true)).toBe(true);
  });
});

test('only what can never be text is safe while typing', () => {
  expect(['Mod+K', 'F1', 'Alt+1'].map(isSafeWhileTyping)).toEqual([true, true, true]);
  expect(['?', 'S', 'Shift+S', 'Delete'].map(isSafeWhileTyping)).toEqual([false, false, false, false]);
});

test('a chord is shown as its platform writes it', () => {
  expect(showChord('Mod+Shift+Z', false)).toBe('Ctrl+Shift+Z');
  expect(showChord('Mod+Shift+Z', true)).toBe('⇧⌘Z');
  expect(showChord('Alt+ArrowUp', false)).toBe('Alt+Up');
  expect(showChord('?', false)).toBe('?');
});

test('no command is run by a single letter, digit or sign, wherever the focus is (WCAG 2.1.4)', () => {
  const bare = Object.entries(COMMANDS).flatMap(([id, { keys = [] }]) =>
    keys.filter((chord) => !isSafeWhileTyping(chord) && chord.length === 1).map((chord) => `${id}: ${chord}`),
  );
  expect(bare).toEqual([]);
});
