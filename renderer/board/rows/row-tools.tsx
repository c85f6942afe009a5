/** What is done with the row in hand: its menu at its end, and its name in the place of the name while it is changed. */

import { Ellipsis } from 'lucide-react';
import { type Dispatch, memo, type SetStateAction, useRef } from 'react';
import { Button as AriaButton, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { RenameLine } from '../../ui/fields/rename-line.tsx';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import { focusRow } from './board-rows.tsx';
import type { RowActs } from './row-acts.ts';

/** What of the row in hand is open: its menu, or its name to be changed. */
export type OpenTool = 'menu' | 'name' | null;

interface Props {
  /** Of the row in hand. */
  readonly primaryId: string;
  readonly name: string;
  /** What has the focus after it is removed; null: it is the only one. */
  readonly neighbourId: string | null;
  /** Whether the rows stand in the header's own order, and there is somewhere to go. */
  readonly canGoUp: boolean;
  readonly canGoDown: boolean;
  readonly acts: RowActs;
  readonly open: OpenTool;
  readonly onOpen: Dispatch<SetStateAction<OpenTool>>;
}

/**
 * Beside the list of rows and not inside it: an option of a list holds no controls of its own. Drawn again for its own reasons
 * only, and not for every piece that is typed.
 */
export const RowTools = memo(function RowTools(props: Props) {
  const { primaryId, name, acts, open, onOpen } = props;
  const frame = useRef<HTMLDivElement>(null);
  const toRow = (id: string) => requestAnimationFrame(() => focusRow(frame.current?.parentElement ?? null, id));
  const done = (renamed: string | null) => {
    onOpen(null);
    if (renamed !== null) acts.rename(primaryId, renamed);
    toRow(primaryId);
  };
  const entries = menuEntries(props, () => onOpen('name'), toRow);
  return (
    <div className="row-tools" ref={frame}>
      {open === 'name' ? <RenameLine key={primaryId} name={name} onDone={done} /> : null}
      <MenuTrigger isOpen={open === 'menu'} onOpenChange={(isOpen) => onOpen((was) => menuSwitched(was, isOpen))}>
        <AriaButton className="row-menu" aria-label={`More for ${primaryTitle(name)}`}>
          <Ellipsis aria-hidden="true" size="1.25em" />
        </AriaButton>
        <Popover className="popover" placement="bottom end">
          <Menu
            className="menu"
            aria-label={primaryTitle(name)}
            onAction={(key) => entries.find(({ id }) => id === key)?.run()}
          >
            {entries.map(({ id, name: does, keys }) => (
              <MenuItem key={id} id={id} className="menu-item" textValue={does}>
                {does}
                {keys === undefined ? null : <kbd className="menu-key">{keys}</kbd>}
              </MenuItem>
            ))}
          </Menu>
        </Popover>
      </MenuTrigger>
    </div>
  );
});

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

function menuEntries(
  { primaryId, neighbourId, canGoUp, canGoDown, acts }: Props,
  rename: () => void,
  toRow: (primaryId: string) => void,
): readonly Entry[] {
  const moved = (by: number) => () => {
    acts.move(primaryId, by);
    toRow(primaryId);
  };
  return [
    { id: 'rename', name: 'Rename', keys: 'F2', run: rename },
    ...(canGoUp ? [{ id: 'up', name: 'Move up', keys: 'Alt+↑', run: moved(-1) }] : []),
    ...(canGoDown ? [{ id: 'down', name: 'Move down', keys: 'Alt+↓', run: moved(1) }] : []),
    { id: 'duplicate', name: 'Duplicate', run: () => acts.duplicate(primaryId) },
    { id: 'mirror', name: 'Mirror to the other bank …', run: () => acts.mirror(primaryId) },
    {
      id: 'remove',
      name: 'Delete',
      run: () => {
        acts.remove(primaryId);
        if (neighbourId !== null) toRow(neighbourId);
      },
    },
  ];
}
