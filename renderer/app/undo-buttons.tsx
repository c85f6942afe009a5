/** Undo and redo on screen; the tooltip and the accessible name say what each takes back. */

import { Redo2, Undo2 } from 'lucide-react';
import { COMMANDS } from '../../electron/bridge/commands.ts';
import { useCommandRegistry } from '../commands/command-registry.ts';
import { showChord } from '../commands/key-chord.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { takesNoSteps } from '../session/session-state.ts';
import { useSession } from '../session/use-session.ts';
import { useSettled } from '../ui/hooks/use-settled.ts';
import { IconButton } from '../ui/icon-button.tsx';

const BUTTONS = [
  { id: 'undo', Icon: Undo2 },
  { id: 'redo', Icon: Redo2 },
] as const;

export function UndoButtons({ session }: { readonly session: HeaderSession }) {
  const registry = useCommandRegistry();
  const isFrozen = useSession(session, takesNoSteps);
  const labels = {
    undo: useSession(session, (state) => state.undoLabel),
    redo: useSession(session, (state) => state.redoLabel),
  };
  // They change with every edit, and take no time from the frame that shows it.
  const undo = useSettled(labels.undo);
  const redo = useSettled(labels.redo);
  const shown = { undo, redo };
  return (
    <>
      {BUTTONS.map(({ id, Icon }) => {
        const [label, { name, keys }] = [shown[id], COMMANDS[id]];
        const key = keys?.[0];
        return (
          <IconButton
            key={id}
            Icon={Icon}
            name={label === null ? name : `${name}: ${label}`}
            shownKey={key === undefined ? undefined : showChord(key)}
            isDisabled={isFrozen || label === null}
            onPress={() => registry.find(id)?.run()}
          />
        );
      })}
    </>
  );
}
