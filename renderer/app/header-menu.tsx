/** The menu on the header's name: everything that is done with a header as a whole. */

import {
  ChevronDown,
  CircleCheckBig,
  Copy,
  EqualApproximately,
  FileDown,
  FileText,
  type LucideIcon,
  Pencil,
  Printer,
  Scissors,
  Trash2,
} from 'lucide-react';
import { Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { COMMANDS, type CommandId } from '../../electron/bridge/commands.ts';
import { useCommandList } from '../commands/command-registry.ts';
import { showChord } from '../commands/key-chord.ts';
import { Button } from '../ui/button.tsx';

const ITEMS: readonly { readonly id: CommandId; readonly word: string; readonly Icon: LucideIcon }[] = [
  { id: 'finishHeader', word: 'Finish', Icon: CircleCheckBig },
  { id: 'goCutPlan', word: 'Cut plan', Icon: Scissors },
  { id: 'goSheets', word: 'Sheets', Icon: FileText },
  { id: 'similarHeaders', word: 'Similar headers', Icon: EqualApproximately },
  { id: 'printBench', word: 'Print', Icon: Printer },
  { id: 'exportHeader', word: 'Export', Icon: FileDown },
  { id: 'duplicateHeader', word: 'Duplicate', Icon: Copy },
  { id: 'renameHeader', word: 'Rename', Icon: Pencil },
  { id: 'binHeader', word: 'Bin', Icon: Trash2 },
];

interface Props {
  /** The header's; the whole of it shows while it is pointed at. */
  readonly name: string;
  /** Added after the name: "finished". */
  readonly state: string | null;
}

export function HeaderMenu({ name, state }: Props) {
  const shown = state === null ? name : `${name}, ${state}`;
  return (
    <MenuTrigger>
      <Button look="quiet" aria-label={`${shown}: header menu`}>
        <span title={name}>{shown}</span>
        <ChevronDown className="icon" aria-hidden="true" />
      </Button>
      <Popover className="popover" placement="bottom start">
        <HeaderMenuItems name={name} />
      </Popover>
    </MenuTrigger>
  );
}

/** Drawn while the menu is open only: what the commands say changes with every edit. */
function HeaderMenuItems({ name }: Pick<Props, 'name'>) {
  const commands = useCommandList();
  const items = ITEMS.map((item) => {
    const command = commands.find(({ id }) => id === item.id);
    const why = command === undefined ? 'Not on this screen.' : (command.unavailable ?? null);
    return { ...item, why, run: command?.run };
  });
  return (
    <Menu
      className="menu"
      aria-label={`Header ${name}`}
      disabledKeys={items.filter(({ why }) => why !== null).map(({ id }) => id)}
      // The menu gives the focus back to the name first; what is run may move it on.
      onAction={(key) => requestAnimationFrame(() => items.find(({ id }) => id === key)?.run?.())}
    >
      {items.map(({ id, word, Icon, why }) => {
        const [key] = COMMANDS[id].keys ?? [];
        return (
          <MenuItem key={id} id={id} className="menu-item" textValue={word}>
            <Icon className="icon" aria-hidden="true" />
            <span className="menu-word">
              {word}
              {why === null ? null : <span className="muted">{`: ${why}`}</span>}
            </span>
            {key === undefined ? null : <kbd className="key">{showChord(key)}</kbd>}
          </MenuItem>
        );
      })}
    </Menu>
  );
}
