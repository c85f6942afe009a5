/** The menus of the grid: the states of the pieces selected, and all that can be done with them. */

import { useLayoutEffect, useMemo, useRef, useState } from 'react';
import { Menu, MenuItem, MenuSection, Popover, Separator } from 'react-aria-components';
import { createPortal } from 'react-dom';
import type { Piece } from '../../../core/index.ts';
import { countOf } from '../../ui/words/spoken.ts';
import type { OpenMenu } from './grid-reach.ts';
import {
  commonState,
  endActs,
  type MenuAct,
  onePieceActs,
  type PieceDoings,
  placeActs,
  stateActs,
  whenMenuIsGone,
} from './piece-acts.ts';

interface Props {
  readonly open: OpenMenu;
  /** The cell that the menu is about. */
  readonly cell: HTMLElement | null;
  /** The piece in hand. */
  readonly piece: Piece;
  /** All pieces selected, that one among them. */
  readonly pieces: readonly Piece[];
  readonly doings: PieceDoings;
  readonly onClose: () => void;
}

export function PieceMenu({ open, cell, piece, pieces, doings, onClose }: Props) {
  const [anchor, setAnchor] = useState<HTMLElement | null>(null);
  const hangsOn = open.point === null ? cell : anchor;
  const triggerRef = useMemo(() => ({ current: hangsOn }), [hangsOn]);
  const states = stateActs(commonState(pieces), doings.onAct);
  const one = pieces.length === 1 ? onePieceActs({ kind: piece.kind, hasNote: piece.note !== '' }, doings) : [];
  const groups =
    open.kind === 'state'
      ? [states]
      : [states, placeActs(doings), one, endActs(piece, doings)].filter((acts) => acts.length > 0);
  const label = pieces.length === 1 ? 'This piece' : countOf(pieces.length, 'piece');
  return (
    <>
      {open.point === null ? null : createPortal(<Point at={open.point} onPlaced={setAnchor} />, document.body)}
      {hangsOn === null ? null : (
        <Popover
          className="popover"
          triggerRef={triggerRef}
          isOpen
          placement={open.kind === 'state' ? 'bottom end' : 'bottom start'}
          onOpenChange={(isOpen) => {
            if (!isOpen) onClose();
          }}
        >
          <GroupedMenu label={label} groups={groups} onClose={onClose} />
        </Popover>
      )}
    </>
  );
}

interface GroupsProps {
  readonly label: string;
  readonly groups: readonly (readonly MenuAct[])[];
  readonly onClose: () => void;
}

function GroupedMenu({ label, groups, onClose }: GroupsProps) {
  const acts = groups.flat();
  return (
    <Menu
      className="menu piece-menu"
      aria-label={label}
      autoFocus="first"
      onClose={onClose}
      onAction={(key) => {
        onClose();
        const chosen = acts.find(({ id }) => id === key);
        if (chosen !== undefined) whenMenuIsGone(chosen.run);
      }}
    >
      {groups.map((group, index) => (
        <MenuSection key={group[0]?.id ?? ''} aria-label={index === 0 ? 'State' : 'Piece'}>
          {index > 0 ? <Separator className="menu-line" /> : null}
          {group.map((act) => (
            <MenuItem key={act.id} id={act.id} className="menu-item" textValue={act.name}>
              <span className="menu-tick" aria-hidden="true">
                {act.isNow === true ? '✓' : ''}
              </span>
              {act.name}
              {act.isNow === true ? <span className="visually-hidden">, as it is now</span> : null}
              {act.key === undefined ? null : <kbd className="menu-key">{act.key}</kbd>}
            </MenuItem>
          ))}
        </MenuSection>
      ))}
    </Menu>
  );
}

/** A place of the window that a menu can hang on. */
function Point({
  at,
  onPlaced,
}: {
  readonly at: NonNullable<OpenMenu['point']>;
  readonly onPlaced: (element: HTMLElement | null) => void;
}) {
  const place = useRef<HTMLSpanElement>(null);
  useLayoutEffect(() => onPlaced(place.current), [onPlaced]);
  return <span ref={place} aria-hidden="true" style={{ position: 'fixed', left: at.x, top: at.y }} />;
}
