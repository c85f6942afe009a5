/** The dialogs that can stand in front of any screen, one at a time. */

import { BringBack } from '../archive/files/bring-back.tsx';
import { ExportFinished } from '../archive/files/export-finished.tsx';
import { BackUpEverything } from '../backups/back-up-everything.tsx';
import { BackupsDialog } from '../backups/backups-dialog.tsx';
import type { Start } from '../backups/cannot-open.tsx';
import { RestoreEverything } from '../backups/restore-everything.tsx';
import type { Command } from '../commands/command.ts';
import { CommandSearch } from '../commands/command-search.tsx';
import { KeysList } from '../commands/keys-list.tsx';
import { FinishDialog } from '../headers/finish-dialog.tsx';
import { ImportDialog } from '../headers/importing/import-dialog.tsx';
import { NewHeaderDialog } from '../headers/new-header-dialog.tsx';
import { PreferencesDialog } from './preferences/preferences-dialog.tsx';
import type { Workshop } from './use-workshop.ts';

interface Props {
  readonly workshop: Workshop;
  readonly onStart: (start: Start) => void;
}

export function WorkshopDialogs({ workshop, onStart }: Props) {
  const { imports, session } = workshop;
  return (
    <>
      {imports.file ? (
        <ImportDialog
          file={imports.file.given}
          expect={imports.file.expect}
          unit={imports.unit}
          openHeader={session?.getState().header ?? null}
          onClose={imports.close}
          onAccept={imports.accept}
        />
      ) : null}
      <NamedDialog workshop={workshop} onStart={onStart} />
    </>
  );
}

/** The closing dialog gives focus back to where it was; a command that moves it must come after that. */
function afterClosing(run: () => void): void {
  requestAnimationFrame(() => requestAnimationFrame(run));
}

function NamedDialog({ workshop, onStart }: Props) {
  const { dialog, setDialog, session } = workshop;
  const close = () => setDialog(null);
  const choose = (command: Command) => {
    close();
    afterClosing(command.run);
  };
  const restored = (start: Start) => {
    close();
    workshop.open.drop();
    onStart(start);
  };
  switch (dialog) {
    case null:
      return null;
    case 'search':
      return <CommandSearch onClose={close} onChoose={choose} />;
    case 'keys':
      return <KeysList onClose={close} />;
    case 'preferences':
      return (
        <PreferencesDialog
          preferences={workshop.preferences}
          onChange={workshop.changePreferences}
          onBackups={() => setDialog('backups')}
          onClose={close}
        />
      );
    case 'backups':
      return <BackupsDialog beforeRestoring={workshop.flush} onClose={close} onRestored={restored} />;
    case 'exportFinished':
      return <ExportFinished headerIds={null} onClose={close} />;
    case 'bringBack':
      return <BringBack onBrought={workshop.imports.renew} onClose={close} />;
    case 'backUpEverything':
      return <BackUpEverything before={workshop.flush} onClose={close} />;
    case 'restoreEverything':
      return <RestoreEverything before={workshop.flush} onClose={close} onRestored={restored} />;
    case 'newHeader':
      return <NewHeaderDialog onOpened={workshop.going.openGiven} onClose={close} />;
    case 'finish':
      return session === null ? null : <FinishDialog session={session} onClose={close} />;
  }
}
