/** Cells being typed into: text stays in its cell until it is taken or given up, whatever else is done meanwhile. */

import { useCallback, useState } from 'react';
import { type Piece, type Primary, replacePieceEdit, unitOf } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { writesDecimalComma } from '../../ui/fields/typed-numbers.ts';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { type CellContext, EDIT_NAMES, type EditPlace, editText, isEditable, readCell } from './piece-columns.ts';
import type { CellEdit } from './piece-row.tsx';
import { keepUnread, unreadCells } from './unread-cells.ts';

const CELL_FIELD = /^cell:([^:]+):([^:]+)$/;

export function cellFieldName(pieceId: string, column: string): string {
  return `cell:${pieceId}:${column}`;
}

/** The primary with the piece that a leftover draft was typed for; null when it is of another field, or the piece is gone. */
export function cellPrimaryOfDraft(session: HeaderSession): string | null {
  const { header, draft } = session.getState();
  const pieceId = CELL_FIELD.exec(draft?.field ?? '')?.[1];
  return header.primaries.find(({ pieces }) => pieces.some(({ id }) => id === pieceId))?.id ?? null;
}

/** What could not be read before, and the cell that a leftover draft belongs to, with their text. */
function editsAtStart(session: HeaderSession, primary: Primary): ReadonlyMap<string, CellEdit> {
  return new Map([...unreadCells(session, primary.id), ...editFromDraft(session, primary)]);
}

/** The cell that a leftover draft belongs to, with its text; empty when it is of another field. */
function editFromDraft(session: HeaderSession, primary: Primary): ReadonlyMap<string, CellEdit> {
  const { draft } = session.getState();
  const [, pieceId = '', name = ''] = CELL_FIELD.exec(draft?.field ?? '') ?? [];
  const column = Object.hasOwn(EDIT_NAMES, name) ? (name as EditPlace) : undefined;
  const piece = primary.pieces.find((candidate) => candidate.id === pieceId);
  if (draft === null || column === undefined || piece === undefined || !isEditable(piece, column)) return new Map();
  return new Map([[pieceId, { column, text: draft.text, caret: draft.text.length, problem: null }]]);
}

/** Text to begin with, and where the caret goes in it. */
export interface Begun {
  readonly text: string;
  readonly caret: number;
}

export interface CellEdits {
  /** By piece id; one a row. */
  readonly edits: ReadonlyMap<string, CellEdit>;
  /** Begins to edit; false where the cell takes no text. `typed` null: what is stored, all of it selected. */
  readonly begin: (pieceId: string, column: EditPlace, typed: Begun | null) => boolean;
  /** Sets the cell at once; text that cannot be read stands in it then, with the reason. */
  readonly set: (pieceId: string, column: EditPlace, text: string) => void;
  /** Takes the text into the piece; false when it cannot be read, and then it stays with the reason. */
  readonly commit: (pieceId: string, text: string) => boolean;
  /** Gives the text up. */
  readonly restore: (pieceId: string) => void;
}

/** How text in a cell is read and shown now. */
function reading(session: HeaderSession): CellContext {
  const { display, clr } = session.getState().header.settings;
  return { unit: unitOf(display), clr, decimalComma: writesDecimalComma() };
}

/** The edits, and putting another in place of a row's; null takes it away. */
function useKeptEdits(session: HeaderSession, primary: Primary) {
  const [edits, setEdits] = useState(() => editsAtStart(session, primary));
  const put = useCallback(
    (pieceId: string, edit: CellEdit | null) => {
      // The grid may be going away: what is in its state then is gone with it.
      keepUnread(session, { primaryId: primary.id, pieceId }, edit);
      setEdits((before) => {
        const after = new Map(before);
        if (edit === null) after.delete(pieceId);
        else after.set(pieceId, edit);
        return after;
      });
    },
    [session, primary.id],
  );
  return { edits, put };
}

export function useCellEdits(session: HeaderSession, primary: Primary): CellEdits {
  const { edits, put } = useKeptEdits(session, primary);
  const pieceNow = (pieceId: string) =>
    session
      .getState()
      .header.primaries.find((candidate) => candidate.id === primary.id)
      ?.pieces.find((candidate) => candidate.id === pieceId);
  const close = (pieceId: string) => {
    put(pieceId, null);
    session.typed(cellFieldName(pieceId, ''), '');
  };
  /** True when taken; else the text stays in its cell with the reason. */
  const take = (piece: Piece, edit: CellEdit): boolean => {
    const context = reading(session);
    const { column, text } = edit;
    // What is stored may be more than can be typed, such as a straight of 0.
    if (text.trim() === editText(piece, column, context).trim()) {
      close(piece.id);
      return true;
    }
    const read = readCell(piece, column, { text, context });
    const taken = read.ok ? session.apply(replacePieceEdit(primary, read.value)) : read;
    if (taken.ok) close(piece.id);
    else put(piece.id, { ...edit, problem: wordsFor(taken.problems) });
    return taken.ok;
  };
  return {
    edits,
    begin(pieceId, column, typed) {
      const piece = pieceNow(pieceId);
      if (piece === undefined || !isEditable(piece, column)) return false;
      const text = typed?.text ?? editText(piece, column, reading(session));
      put(pieceId, { column, text, caret: typed?.caret ?? null, problem: null });
      return true;
    },
    set(pieceId, column, text) {
      const piece = pieceNow(pieceId);
      if (piece !== undefined && isEditable(piece, column)) {
        take(piece, { column, text, caret: text.length, problem: null });
      }
    },
    commit(pieceId, text) {
      const edit = edits.get(pieceId);
      const piece = pieceNow(pieceId);
      return edit === undefined || piece === undefined || take(piece, { ...edit, text });
    },
    restore: close,
  };
}
