/** Cells being typed into: text stays in its cell until it is taken or given up, whatever else is done meanwhile. */

import { useCallback, useState } from 'react';
import { type Primary, replacePieceEdit, unitOf } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { type CellContext, COLUMNS, type Column, editText, isEditable, readCell } from './piece-columns.ts';
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
  const column = COLUMNS.find((candidate) => candidate === name);
  const piece = primary.pieces.find((candidate) => candidate.id === pieceId);
  if (draft === null || column === undefined || piece === undefined || !isEditable(piece, column)) return new Map();
  return new Map([[pieceId, { column, text: draft.text, isOverwriting: true, problem: null }]]);
}

export interface CellEdits {
  /** By piece id; one a row. */
  readonly edits: ReadonlyMap<string, CellEdit>;
  /** Begins to edit; false where the cell takes no text. `text` null: what is stored. */
  readonly begin: (pieceId: string, column: Column, text: string | null) => boolean;
  /** Takes the text into the piece; false when it cannot be read, and then it stays with the reason. */
  readonly commit: (pieceId: string, text: string) => boolean;
  /** Gives the text up. */
  readonly restore: (pieceId: string) => void;
}

/** How text in a cell is read and shown now. */
function reading(session: HeaderSession): CellContext {
  const { display, clr } = session.getState().header.settings;
  return { unit: unitOf(display), clr };
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
  return {
    edits,
    begin(pieceId, column, text) {
      const piece = pieceNow(pieceId);
      if (piece === undefined || !isEditable(piece, column)) return false;
      const stored = editText(piece, column, reading(session));
      put(pieceId, { column, text: text ?? stored, isOverwriting: text !== null, problem: null });
      return true;
    },
    commit(pieceId, text) {
      const edit = edits.get(pieceId);
      const piece = pieceNow(pieceId);
      if (edit === undefined || piece === undefined) return true;
      const context = reading(session);
      const isUnchanged = text.trim() === editText(piece, edit.column, context);
      const read = readCell(piece, edit.column, { text, context });
      const taken = !read.ok || isUnchanged ? read : session.apply(replacePieceEdit(primary, read.value));
      if (taken.ok) close(pieceId);
      else put(pieceId, { ...edit, text, problem: wordsFor(taken.problems) });
      return taken.ok;
    },
    restore: close,
  };
}
