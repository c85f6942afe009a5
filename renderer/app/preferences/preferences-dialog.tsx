/** Preferences: how the program looks and how large it is. */

import { Button } from '../../ui/button.tsx';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { ModalDialog } from '../../ui/modal-dialog.tsx';
import { DENSITIES, type Preferences, THEMES } from './preferences.ts';

interface Props {
  readonly preferences: Preferences;
  readonly onChange: (change: Partial<Preferences>) => void;
  readonly onBackups: () => void;
  readonly onClose: () => void;
}

export function PreferencesDialog({ preferences, onChange, onBackups, onClose }: Props) {
  return (
    <ModalDialog
      title="Preferences"
      isOpen
      onClose={onClose}
      actions={
        <>
          <Button look="main" onPress={onClose}>
            Done
          </Button>
          <Button onPress={onBackups}>Backups</Button>
        </>
      }
    >
      <ChoiceField
        label="Size"
        choices={DENSITIES}
        chosen={preferences.density}
        onChoose={(density) => onChange({ density })}
      />
      <ChoiceField
        label="Light or dark"
        choices={THEMES}
        chosen={preferences.theme}
        onChoose={(theme) => onChange({ theme })}
      />
      <p className="muted">
        Units, the target and the tolerance belong to each header: find them on the bench, under Settings on the rail.
      </p>
    </ModalDialog>
  );
}
