/** The program once its store is open: the bar, one screen at a time, and what works everywhere. */

import { useState } from 'react';
import type { Start } from '../backups/cannot-open.tsx';
import { LookingOnly } from '../backups/looking-only.tsx';
import { useCommandKeys } from '../commands/use-command-keys.ts';
import { useHostEvents } from '../host/use-host-events.ts';
import { SpokenStatus } from '../ui/spoken-status.tsx';
import { Bar } from './bar.tsx';
import { useProgramCommands } from './commands/use-program-commands.ts';
import type { AskedAhead } from './opening/use-open-header.ts';
import { Screens } from './screens.tsx';
import { useFileDrop } from './use-file-drop.ts';
import { useWindowTitle } from './use-window-title.ts';
import { type ReadyStart, useWorkshop, type Workshop as WorkshopNow } from './use-workshop.ts';
import { WorkshopDialogs } from './workshop-dialogs.tsx';
import './frame.css';

interface Props {
  readonly start: ReadyStart;
  readonly ahead: AskedAhead | null;
  /** The store was opened anew, from a backup. */
  readonly onStart: (start: Start) => void;
}

export function Workshop({ start, ahead, onStart }: Props) {
  const workshop = useWorkshop(start, ahead);
  const isFileOver = useFileDrop(workshop.imports.offer);
  return (
    <div className="frame">
      <Bar
        screen={workshop.screen}
        benchScreen={workshop.benchScreen}
        session={workshop.session}
        isRenaming={workshop.isRenaming}
        setRenaming={workshop.setRenaming}
      />
      <LookingOnly atStart={start.cannotWrite} />
      <Screens workshop={workshop} start={start} />
      {isFileOver ? <div className="drop-note">Drop the file to see what is in it</div> : null}
      <WorkshopDialogs workshop={workshop} onStart={onStart} />
      <Listening workshop={workshop} />
    </div>
  );
}

/** Commands, keys, title and host. On its own, because the names of undo and redo change with every edit. */
function Listening({ workshop }: { readonly workshop: WorkshopNow }) {
  const { imports, flush, going } = workshop;
  const [heard, hear] = useState('');
  const runCommand = useProgramCommands(workshop, hear);
  useCommandKeys();
  useWindowTitle(workshop.screen, workshop.session);
  const unsaved = () => workshop.session?.unsaved() ?? null;
  useHostEvents({
    command: runCommand,
    openHeader: going.openById,
    flush,
    unsaved,
    openFile: imports.offerGiven,
  });
  return <SpokenStatus text={heard} />;
}
