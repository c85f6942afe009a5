/** What else can be done with a row: one menu for the whole list, which hangs on the row whose button opened it. */

import { useMemo } from 'react';
import { Menu, MenuItem, Popover } from 'react-aria-components';
import type { ArchiveRow, RowActs } from './archive-row.tsx';

/** The row that the menu is open for, and its button. */
export interface OpenRowMenu {
  readonly row: ArchiveRow;
  readonly button: HTMLElement;
}

interface Props {
  readonly open: OpenRowMenu;
  /** Name of the header that a comparison has begun with; null: none has, or with this row. */
  readonly compareWith: string | null;
  readonly acts: RowActs;
  readonly onClose: () => void;
}

export function RowMenu({ open: { row, button }, compareWith, acts, onClose }: Props) {
  const triggerRef = useMemo(() => ({ current: button }), [button]);
  const items = [
    { id: 'mirrored', name: 'Open as new, mirrored', run: () => acts.openAsNew(row, 'mirrored') },
    { id: 'similar', name: 'Similar headers', run: () => acts.findSimilar(row) },
    { id: 'compare', name: compareName(compareWith), run: () => acts.compare(row) },
    { id: 'view', name: 'View', run: () => acts.look(row) },
    { id: 'export', name: 'Export to a file', run: () => acts.exportFile(row) },
  ];
  return (
    <Popover
      className="popover"
      triggerRef={triggerRef}
      isOpen
      placement="bottom end"
      onOpenChange={(isOpen) => {
        if (!isOpen) onClose();
      }}
    >
      <Menu
        className="menu"
        aria-label={`More for ${row.name}`}
        autoFocus="first"
        onClose={onClose}
        onAction={(key) => items.find(({ id }) => id === key)?.run()}
      >
        {items.map(({ id, name }) => (
          <MenuItem key={id} id={id} className="menu-item">
            {name}
          </MenuItem>
        ))}
      </Menu>
    </Popover>
  );
}

function compareName(compareWith: string | null): string {
  return compareWith === null ? 'Compare with another' : `Compare with ${compareWith}`;
}
