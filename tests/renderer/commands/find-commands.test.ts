/** The search finds commands by their words, and lists first what is named as typed. */

import { expect, test } from 'vitest';
import type { CommandGroup } from '../../../electron/bridge/commands.ts';
import { hasBeginnings, nearestFirst, searchText } from '../../../renderer/commands/find-commands.ts';

const command = (id: string, more: { name?: string; group?: CommandGroup; words?: string } = {}) => ({
  id,
  name: id,
  group: 'Program' as const,
  ...more,
});

test('the search finds beginnings of words, in any order, also words that are not shown', () => {
  const finish = command('finish', { name: 'Finish this header', group: 'Header', words: 'archive freeze' });
  const finds = (typed: string) => hasBeginnings(searchText(finish), typed);
  expect(['', 'fin', 'HEADER fin', 'arch', 'free head'].map(finds)).toEqual([true, true, true, true, true]);
  expect(['inish', 'fin bench', 'xyz'].map(finds)).toEqual([false, false, false]);
});

test('a command whose name is typed comes before one that only has the words elsewhere', () => {
  const commands = [
    command('addPrimary', { name: 'Add primary', group: 'Header', words: 'runner new' }),
    command('renew', { name: 'Header: new name' }),
    command('newHeader', { name: 'New header', group: 'Header' }),
  ];
  expect(nearestFirst(commands, 'new header').map(({ id }) => id)).toEqual(['newHeader', 'renew', 'addPrimary']);
  expect(nearestFirst(commands, '').map(({ id }) => id)).toEqual(['addPrimary', 'renew', 'newHeader']);
});

test('words of the name count more than other words', () => {
  const commands = [command('Open', { words: 'archive' }), command('Find in the archive')];
  expect(nearestFirst(commands, 'archive').map(({ name }) => name)).toEqual(['Find in the archive', 'Open']);
});
