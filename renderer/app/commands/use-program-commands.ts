/** The commands that work everywhere in the program, and running one by its id. */

import { useCallback } from 'react';
import type { CommandId } from '../../../electron/bridge/commands.ts';
import { useCommandRegistry, useCommands } from '../../commands/command-registry.ts';
import { useAsk } from '../../host/host-bridge.ts';
import { useHeaderActs } from '../../session/header-acts.ts';
import { useNotice } from '../../ui/notices.tsx';
import type { Workshop } from '../use-workshop.ts';
import { headerCommands } from './header-commands.ts';
import { editCommands, placeCommands, viewCommands } from './place-commands.ts';
import { useHeaderState } from './use-header-state.ts';

const GONE_COMMAND = 'That cannot be done on this screen.';

/** Offers the commands; returns the way to run any of them by id, as the menu bar does. `hear`: see `editCommands`. */
export function useProgramCommands(workshop: Workshop, hear: (words: string) => void): (id: CommandId) => void {
  const registry = useCommandRegistry();
  const acts = useHeaderActs();
  const ask = useAsk();
  const say = useNotice();
  const state = useHeaderState(workshop.session);
  const backUp = async () => {
    const answer = await ask('makeBackup', {});
    if (answer.ok) say({ text: 'Already saved: every entry goes to disk as you make it. A backup was made as well.' });
    else say({ text: `No backup was made. ${answer.words}`, tone: 'trouble' });
  };
  useCommands([
    ...headerCommands({ workshop, acts, say, isFinished: state.isFinished, notFinish: state.notFinish }),
    ...editCommands(workshop, state, hear),
    { id: 'saveNow', run: () => void workshop.flush().then(backUp) },
    ...viewCommands(workshop),
    ...placeCommands(workshop),
  ]);
  return useCallback(
    (id: CommandId) => {
      const command = registry.find(id);
      const reason = command === null ? GONE_COMMAND : (command.unavailable ?? null);
      if (reason === null) command?.run();
      else say({ text: command === null ? reason : `${command.name}: ${reason}` });
    },
    [registry, say],
  );
}
