/** Undo and redo on screen; the tooltip and the accessible name say what each takes back. */

import { Redo2, Undo2 } from 'lucide-react';
import { COMMANDS, type CommandId } from '../../electron/bridge/commands.ts';
import { useCommandList } from '../commands/command-registry.ts';
import { showChord } from '../commands/key-chord.ts';
import { IconButton } from '../ui/icon-button.tsx';

const ICONS = { undo: Undo2, redo: Redo2 } as const;

export function UndoButtons() {
  const commands = useCommandList();
  const button = (id: CommandId & keyof typeof ICONS) => {
    const command = commands.find((candidate) => candidate.id === id);
    const [key] = COMMANDS[id].keys ?? [];
    return (
      <IconButton
        Icon={ICONS[id]}
        name={command?.name ?? COMMANDS[id].name}
        shownKey={key === undefined ? undefined : showChord(key)}
        isDisabled={command === undefined || (command.unavailable ?? null) !== null}
        onPress={() => command?.run()}
      />
    );
  };
  return (
    <>
      {button('undo')}
      {button('redo')}
    </>
  );
}
