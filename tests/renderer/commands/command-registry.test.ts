/** The registry holds what can be done now. */

import { expect, test } from 'vitest';
import type { CommandId } from '../../../electron/bridge/commands.ts';
import type { OfferedCommand } from '../../../renderer/commands/command.ts';
import { createCommandRegistry } from '../../../renderer/commands/command-registry.ts';

const offer = (id: CommandId, more: Partial<OfferedCommand> = {}): OfferedCommand => ({
  id,
  run: () => undefined,
  ...more,
});

test('commands are there while their screen is, and gone after it', () => {
  const registry = createCommandRegistry();
  const leave = registry.add([offer('undo')]);
  registry.add([offer('redo')]);
  expect(registry.list().map(({ id }) => id)).toEqual(['undo', 'redo']);
  leave();
  expect(registry.find('undo')).toBeNull();
  expect(registry.find('redo')?.id).toBe('redo');
});

test('a command has its words and keys from the table, unless its screen says its name more exactly', () => {
  const registry = createCommandRegistry();
  registry.add([offer('redo'), offer('undo', { name: 'Undo: add a bend' })]);
  expect(registry.find('redo')).toMatchObject({ name: 'Redo', group: 'Edit', keys: ['Mod+Shift+Z', 'Mod+Y'] });
  expect(registry.find('undo')).toMatchObject({ name: 'Undo: add a bend', group: 'Edit', keys: ['Mod+Z'] });
});

test('a later screen stands before an earlier one, which comes back after it', () => {
  const registry = createCommandRegistry();
  registry.add([offer('undo', { name: 'first' })]);
  const leave = registry.add([offer('undo', { name: 'second' })]);
  expect(registry.find('undo')?.name).toBe('second');
  expect(registry.list()).toHaveLength(1);
  leave();
  expect(registry.find('undo')?.name).toBe('first');
});

test('commands are listed by group, and listeners hear of each change', () => {
  const registry = createCommandRegistry();
  let changes = 0;
  const stop = registry.subscribe(() => {
    changes += 1;
  });
  registry.add([offer('showHelp'), offer('newHeader')]);
  expect(registry.list().map(({ id }) => id)).toEqual(['newHeader', 'showHelp']);
  expect(changes).toBe(1);
  stop();
  registry.add([offer('undo')]);
  expect(changes).toBe(1);
});

test('a command that is not in the table does not compile', () => {
  // @ts-expect-error there is no such command
  const stranger: OfferedCommand = { id: 'makeTea', run: () => undefined };
  // @ts-expect-error there is no such command
  expect(createCommandRegistry().find('makeTea')).toBeNull();
  expect(stranger.id).toBe('makeTea');
});
