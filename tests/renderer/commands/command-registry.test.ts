/** The registry holds what can be done now. */

import { expect, test } from 'vitest';
import type { Command } from '../../../renderer/commands/command.ts';
import { createCommandRegistry } from '../../../renderer/commands/command-registry.ts';

const command = (id: string, more: Partial<Command> = {}): Command => ({
  id,
  name: id,
  group: 'Program',
  run: () => undefined,
  ...more,
});

test('commands are there while their screen is, and gone after it', () => {
  const registry = createCommandRegistry();
  const leave = registry.add([command('a')]);
  registry.add([command('b')]);
  expect(registry.list().map(({ id }) => id)).toEqual(['a', 'b']);
  leave();
  expect(registry.find('a')).toBeNull();
  expect(registry.find('b')?.id).toBe('b');
});

test('a later screen stands before an earlier one, which comes back after it', () => {
  const registry = createCommandRegistry();
  registry.add([command('undo', { name: 'first' })]);
  const leave = registry.add([command('undo', { name: 'second' })]);
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
  registry.add([command('z', { group: 'Program' }), command('y', { group: 'Header' })]);
  expect(registry.list().map(({ id }) => id)).toEqual(['y', 'z']);
  expect(changes).toBe(1);
  stop();
  registry.add([command('x')]);
  expect(changes).toBe(1);
});
