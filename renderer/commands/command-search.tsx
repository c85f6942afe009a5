/** One box in which every command is found by typing part of its name. */

import { useState } from 'react';
import { Autocomplete, Input, Menu, MenuItem, SearchField } from 'react-aria-components';
import { ModalDialog } from '../ui/modal-dialog.tsx';
import type { Command } from './command.ts';
import { useCommandList } from './command-registry.ts';
import { hasBeginnings, nearestFirst, searchText } from './find-commands.ts';
import { showChord } from './key-chord.ts';
import './commands.css';

interface Props {
  readonly onClose: () => void;
  /** Called once the search is away, so that the command finds the screen as it was. */
  readonly onChoose: (command: Command) => void;
}

export function CommandSearch({ onClose, onChoose }: Props) {
  const commands = useCommandList();
  const [typed, setTyped] = useState('');
  const blocked = commands.filter((command) => (command.unavailable ?? null) !== null).map((command) => command.id);
  return (
    <ModalDialog title="Find a command" isOpen onClose={onClose}>
      <Autocomplete inputValue={typed} onInputChange={setTyped} filter={hasBeginnings}>
        <SearchField className="field command-line" aria-label="Part of a command's name" autoFocus>
          <Input className="field-input" placeholder="Type part of its name" />
        </SearchField>
        <Menu
          className="menu command-menu"
          aria-label="Commands"
          disabledKeys={blocked}
          renderEmptyState={() => <p className="muted">No command has that in its name.</p>}
          onAction={(key) => {
            const command = commands.find((candidate) => candidate.id === key);
            if (command) onChoose(command);
          }}
        >
          {nearestFirst(commands, typed).map((command) => (
            <MenuItem key={command.id} id={command.id} className="menu-item" textValue={searchText(command)}>
              <span className="command-name">
                {command.name}
                {command.unavailable ? <span className="muted">{`: ${command.unavailable}`}</span> : null}
              </span>
              {command.keys?.[0] ? <kbd className="key">{showChord(command.keys[0])}</kbd> : null}
            </MenuItem>
          ))}
        </Menu>
      </Autocomplete>
    </ModalDialog>
  );
}
