/** A button that opens a short list to choose one thing from, and a button that opens a list of things to do. */

import type { ReactNode } from 'react';
import { Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { Button } from '../button.tsx';

export interface Choice<Id extends string> {
  readonly id: Id;
  readonly name: string;
}

interface ChoiceMenuProps<Id extends string> {
  /** What is chosen: "Lengths shown in". Said before the present choice to screen readers. */
  readonly label: string;
  /** The button's words. */
  readonly children: ReactNode;
  readonly choices: readonly Choice<Id>[];
  readonly chosen: Id;
  readonly onChoose: (id: Id) => void;
}

export function ChoiceMenu<Id extends string>({ label, children, choices, chosen, onChoose }: ChoiceMenuProps<Id>) {
  const chosenName = choices.find((choice) => choice.id === chosen)?.name ?? '';
  return (
    <MenuTrigger>
      <Button look="quiet" aria-label={`${label}: ${chosenName}`}>
        {children}
      </Button>
      <Popover className="popover" placement="bottom end">
        <Menu
          className="menu"
          aria-label={label}
          selectionMode="single"
          disallowEmptySelection
          selectedKeys={[chosen]}
          onAction={(key) => {
            const choice = choices.find((candidate) => candidate.id === key);
            if (choice) onChoose(choice.id);
          }}
        >
          {choices.map((choice) => (
            <MenuItem key={choice.id} id={choice.id} className="menu-item" textValue={choice.name}>
              {({ isSelected }) => (
                <>
                  <span className="menu-tick" aria-hidden="true">
                    {isSelected ? '✓' : ''}
                  </span>
                  {choice.name}
                </>
              )}
            </MenuItem>
          ))}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}

export interface Act {
  readonly id: string;
  readonly name: string;
  readonly run: () => void;
}

interface ActionMenuProps {
  /** Full name for screen readers: "More for Hill-climb four". */
  readonly label: string;
  readonly children: ReactNode;
  readonly acts: readonly Act[];
}

export function ActionMenu({ label, children, acts }: ActionMenuProps) {
  return (
    <MenuTrigger>
      <Button look="quiet" aria-label={label}>
        {children}
      </Button>
      <Popover className="popover" placement="bottom end">
        <Menu
          className="menu"
          aria-label={label}
          onAction={(key) => acts.find((candidate) => candidate.id === key)?.run()}
        >
          {acts.map((act) => (
            <MenuItem key={act.id} id={act.id} className="menu-item">
              {act.name}
            </MenuItem>
          ))}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}
