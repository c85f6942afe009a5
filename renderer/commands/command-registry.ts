/** The commands that can be given now: screens put theirs in while they are shown. */

import { createContext, useContext, useEffect, useMemo, useRef, useSyncExternalStore } from 'react';
import { COMMAND_GROUPS, type CommandId } from '../../electron/bridge/commands.ts';
import { type Command, commandOf, type OfferedCommand } from './command.ts';

export interface CommandRegistry {
  /** Adds the commands until the returned function is called. A later one with the same id stands before an earlier. */
  add(offered: readonly OfferedCommand[]): () => void;
  /** By group, then in the order they were added. The same array until something changes. */
  list(): readonly Command[];
  find(id: CommandId): Command | null;
  subscribe(listener: () => void): () => void;
}

function inOrder(layers: readonly (readonly Command[])[]): readonly Command[] {
  const byId = new Map<CommandId, Command>();
  for (const layer of layers) for (const command of layer) byId.set(command.id, command);
  const commands = [...byId.values()];
  return COMMAND_GROUPS.flatMap((group) => commands.filter((command) => command.group === group));
}

export function createCommandRegistry(): CommandRegistry {
  let layers: readonly (readonly Command[])[] = [];
  let listed: readonly Command[] = [];
  const listeners = new Set<() => void>();
  const changeTo = (next: readonly (readonly Command[])[]) => {
    layers = next;
    listed = inOrder(layers);
    for (const listener of listeners) listener();
  };
  return {
    add(offered) {
      const commands = offered.map(commandOf);
      changeTo([...layers, commands]);
      return () => changeTo(layers.filter((layer) => layer !== commands));
    },
    list: () => listed,
    find: (id) => listed.find((command) => command.id === id) ?? null,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

export const CommandContext = createContext<CommandRegistry | null>(null);

export function useCommandRegistry(): CommandRegistry {
  const registry = useContext(CommandContext);
  if (registry === null) throw new Error('No command registry above this component');
  return registry;
}

export function useCommandList(): readonly Command[] {
  const registry = useCommandRegistry();
  return useSyncExternalStore(registry.subscribe, registry.list);
}

/**
 * Offers the commands while the component is shown. `run` may close over changing state: the latest is called, and
 * the registry changes only when what is shown of a command does.
 */
export function useCommands(offered: readonly OfferedCommand[]): void {
  const registry = useCommandRegistry();
  const latest = useRef(offered);
  useEffect(() => {
    latest.current = offered;
  });
  const shown = JSON.stringify(offered);
  const stable = useMemo(
    () =>
      (JSON.parse(shown) as readonly Omit<OfferedCommand, 'run'>[]).map((command) => ({
        ...command,
        run: () => latest.current.find((candidate) => candidate.id === command.id)?.run(),
      })),
    [shown],
  );
  useEffect(() => registry.add(stable), [registry, stable]);
}
