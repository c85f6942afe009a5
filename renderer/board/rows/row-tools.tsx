/** What is done with the row in hand: its menu at its end, and its name in the place of the name while it is changed. */

import { Ellipsis } from 'lucide-react';
import { type Dispatch, type SetStateAction, useRef } from 'react';
import { Button as AriaButton, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import type { Header } from '../../../core/index.ts';
import { RenameLine } from '../../ui/fields/rename-line.tsx';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import type { BoardOrder } from '../board-order.ts';
import { focusRow } from './board-rows.tsx';
import type { RowActs } from './row-acts.ts';

/** What of the row in hand is open: its menu, or its name to be changed. */
export type OpenTool = 'menu' | 'name' | null;

interface Props {
  readonly header: Header;
  readonly primaryId: string | null;
  readonly order: BoardOrder;
  readonly acts: RowActs;
  readonly open: OpenTool;
  readonly onOpen: Dispatch<SetStateAction<OpenTool>>;
}

/** Beside the list of rows and not inside it: an option of a list holds no controls of its own. */
export function RowTools({ header, primaryId, order, acts, open, onOpen }: Props) {
  const frame = useRef<HTMLDivElement>(null);
  const place = header.primaries.findIndex(({ id }) => id === primaryId);
  const primary = header.primaries[place];
  if (primary === undefined) return null;
  const toRow = (id: string) => requestAnimationFrame(() => focusRow(frame.current?.parentElement ?? null, id));
  const done = (name: string | null) => {
    onOpen(null);
    if (name !== null) acts.rename(primary.id, name);
    toRow(primary.id);
  };
  const entries = menuEntries({ header, place, order, acts }, () => onOpen('name'), toRow);
  return (
    <div className="row-tools" ref={frame}>
      {open === 'name' ? <RenameLine key={primary.id} name={primary.name} onDone={done} /> : null}
      <MenuTrigger isOpen={open === 'menu'} onOpenChange={(isOpen) => onOpen((was) => menuSwitched(was, isOpen))}>
        <AriaButton className="row-menu" aria-label={`More for ${primaryTitle(primary.name)}`}>
          <Ellipsis aria-hidden="true" size="1.25em" />
        </AriaButton>
        <Popover className="popover" placement="bottom end">
          <Menu
            className="menu"
            aria-label={primaryTitle(primary.name)}
            onAction={(key) => entries.find(({ id }) => id === key)?.run()}
          >
            {entries.map(({ id, name, keys }) => (
              <MenuItem key={id} id={id} className="menu-item" textValue={name}>
                {name}
                {keys === undefined ? null : <kbd className="menu-key">{keys}</kbd>}
              </MenuItem>
            ))}
          </Menu>
        </Popover>
      </MenuTrigger>
    </div>
  );
}

/** A menu that closes because its entry opened the name leaves that open. */
function menuSwitched(was: OpenTool, isOpen: boolean): OpenTool {
  if (isOpen) return 'menu';
  return was === 'menu' ? null : was;
}

interface Entry {
  readonly id: string;
  readonly name: string;
  readonly keys?: string;
  readonly run: () => void;
}

interface EntryContext extends Pick<Props, 'header' | 'order' | 'acts'> {
  readonly place: number;
}

/** Moving up and down is offered where the rows stand in the header's own order, and there is somewhere to go. */
function menuEntries(
  { header, place, order, acts }: EntryContext,
  rename: () => void,
  toRow: (primaryId: string) => void,
): readonly Entry[] {
  const primary = header.primaries[place];
  if (primary === undefined) return [];
  const { id } = primary;
  const last = header.primaries.length - 1;
  const neighbour = header.primaries[place === last ? place - 1 : place + 1];
  const moved = (by: number) => () => {
    acts.move(id, by);
    toRow(id);
  };
  return [
    { id: 'rename', name: 'Rename', keys: 'F2', run: rename },
    ...(order === 'port' && place > 0 ? [{ id: 'up', name: 'Move up', keys: 'Alt+↑', run: moved(-1) }] : []),
    ...(order === 'port' && place < last ? [{ id: 'down', name: 'Move down', keys: 'Alt+↓', run: moved(1) }] : []),
    { id: 'duplicate', name: 'Duplicate', run: () => acts.duplicate(id) },
    { id: 'mirror', name: 'Mirror to the other bank …', run: () => acts.mirror(id) },
    {
      id: 'remove',
      name: 'Delete',
      run: () => {
        acts.remove(id);
        if (neighbour !== undefined) toRow(neighbour.id);
      },
    },
  ];
}
