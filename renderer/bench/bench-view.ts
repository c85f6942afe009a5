/** What is selected and open on the bench; none of it is part of the document. */

import { useEffect, useMemo, useState } from 'react';
import type { Header, Piece, Primary } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { pieceInHand, takeInHand } from '../session/piece-in-hand.ts';
import type { Cell } from './grid/grid-keys.ts';
import { type RowSelection, selectedRows } from './grid/row-selection.ts';
import type { PanelId } from './panels/panel-list.ts';

interface ViewState extends RowSelection {
  readonly primaryId: string | null;
  /**
   * New pieces go after the first of these that is there, so that undoing a piece leaves the place where it was; none: at
   * the end. BEFORE_FIRST stands for the start and is always there.
   */
  readonly insertAfterIds: readonly string[];
  readonly panel: PanelId | null;
  /** Where stage and panel share one place, the one that is in front. */
  readonly front: 'stage' | 'panel';
  readonly hasKeypad: boolean;
  /** The bend whose angle is being taken off by tape. */
  readonly tapedPieceId: string | null;
}

export interface BenchView extends ViewState {
  readonly primary: Primary | null;
  /** The piece in the row of the cell in hand. */
  readonly piece: Piece | null;
  /** The pieces of all rows selected, in order. */
  readonly pieces: readonly Piece[];
  /** New pieces go after this one; null: at the end; BEFORE_FIRST: at the start. */
  readonly insertAfterId: string | null;
  readonly change: (set: Partial<ViewState>) => void;
  readonly selectPrimary: (primaryId: string) => void;
  /** Opens the panel and brings it to the front; closes it when it is open there already. */
  readonly togglePanel: (panel: PanelId) => void;
}

/** The cell to go to in a row that is selected from elsewhere: the piece's length or angle. */
export const SIZE_COLUMN = 2;

/** No piece has this id. */
export const BEFORE_FIRST = '';

const AT_START: ViewState = {
  primaryId: null,
  cell: null,
  anchorRow: null,
  pickedIds: [],
  insertAfterIds: [],
  panel: null,
  front: 'stage',
  hasKeypad: false,
  tapedPieceId: null,
};

/** How the bench was left, for as long as its header is open: coming back from the shelf is going on where one was. */
const left = new WeakMap<HeaderSession, ViewState>();

/** Falls back to the first primary, and to the last row, when what was selected is gone. */
export function useBenchView(session: HeaderSession, header: Header, primaryIdAtStart: string | null): BenchView {
  const [state, setState] = useState<ViewState>(() =>
    withPiece(left.get(session) ?? { ...AT_START, primaryId: primaryIdAtStart }, header, pieceInHand(session)),
  );
  const primary = header.primaries.find((candidate) => candidate.id === state.primaryId) ?? header.primaries[0] ?? null;
  const cell = cellWithin(state.cell, primary);
  const piece = cell === null ? null : (primary?.pieces[cell.row] ?? null);
  const pieceId = piece?.id ?? null;
  useEffect(() => {
    left.set(session, state);
    takeInHand(session, pieceId);
  }, [session, state, pieceId]);
  const acts = useMemo(() => {
    // Going to another cell gives up rows that were added to the selection, unless it comes with its own.
    const change = (set: Partial<ViewState>) =>
      setState((before) => ({ ...before, ...(set.cell === undefined ? {} : { pickedIds: [] }), ...set }));
    return {
      change,
      togglePanel: (panel: PanelId) =>
        setState((before) =>
          before.panel === panel && before.front === 'panel'
            ? { ...before, panel: null, front: 'stage' }
            : { ...before, panel, front: 'panel' },
        ),
      selectPrimary: (primaryId: string) =>
        setState((before) =>
          before.primaryId === primaryId
            ? before
            : {
                ...before,
                primaryId,
                cell: null,
                anchorRow: null,
                pickedIds: [],
                insertAfterIds: [],
                tapedPieceId: null,
              },
        ),
    };
  }, []);
  return {
    ...state,
    ...acts,
    primaryId: primary?.id ?? null,
    primary,
    cell,
    piece,
    pieces: selectedPieces({ ...state, cell }, primary),
    insertAfterId: insertPlaceOf(state.insertAfterIds, primary),
  };
}

/** With the piece that another screen took in hand selected; as it was where that is none, or is selected already. */
function withPiece(state: ViewState, { primaries }: Header, pieceId: string | null): ViewState {
  const primary = primaries.find(({ pieces }) => pieces.some(({ id }) => id === pieceId));
  const row = primary?.pieces.findIndex(({ id }) => id === pieceId) ?? -1;
  if (primary === undefined || (state.primaryId === primary.id && state.cell?.row === row)) return state;
  return { ...state, primaryId: primary.id, cell: { row, column: SIZE_COLUMN }, anchorRow: null, pickedIds: [] };
}

/** The primary so many places further, stopping at the ends; null in a header without any. */
export function primaryBy(header: Header, primaryId: string | null, by: number): Primary | null {
  const from = header.primaries.findIndex((primary) => primary.id === primaryId);
  const to = Math.min(header.primaries.length - 1, Math.max(0, from + by));
  return header.primaries[to] ?? null;
}

/** The cell, on the last row if its own is gone. */
export function cellWithin(cell: Cell | null, primary: Primary | null): Cell | null {
  const rows = primary?.pieces.length ?? 0;
  if (cell === null || rows === 0) return null;
  return cell.row < rows ? cell : { ...cell, row: rows - 1 };
}

/** The pieces of the rows selected, in order. */
export function selectedPieces(selection: RowSelection, primary: Primary | null): readonly Piece[] {
  if (primary === null) return [];
  const rows = selectedRows(selection, primary.pieces);
  return primary.pieces.filter((_piece, row) => rows.has(row));
}

/** The first of the ids that is a piece of the primary, or stands for its start; null: at the end. */
function insertPlaceOf(afterIds: readonly string[], primary: Primary | null): string | null {
  return afterIds.find((id) => id === BEFORE_FIRST || primary?.pieces.some((piece) => piece.id === id)) ?? null;
}

/** What `insertAfterIds` is for pieces that go in before a row: whichever of the pieces above it is left. */
export function idsAbove(primary: Primary, row: number): readonly string[] {
  return [
    ...primary.pieces
      .slice(0, row)
      .map(({ id }) => id)
      .reverse(),
    BEFORE_FIRST,
  ];
}
