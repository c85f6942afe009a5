/** What can be done on the bench: each act turns what is selected into edits, and moves the selection along. */

import {
  addPiecesEdit,
  addPrimariesEdit,
  addPrimaryEdit,
  assertNever,
  copiedPieces,
  duplicatePiecesEdit,
  duplicatePrimaryEdit,
  type Edit,
  movePiecesEdit,
  movePrimaryEdit,
  type Piece,
  parseQuickEntry,
  pieceCopy,
  pieceFromQuick,
  type RefusedRow,
  readPastedPieces,
  removePiecesEdit,
  removePrimaryEdit,
  setLockedEdit,
  setStateEdit,
  shiftPiecesEdit,
  unitOf,
} from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { writesDecimalComma } from '../ui/fields/typed-numbers.ts';
import { type Notice, useNotice } from '../ui/notices.tsx';
import { commasWords, wordsFor } from '../ui/words/problem-words.ts';
import { BEFORE_FIRST, type BenchView, idsAbove, primaryBy } from './bench-view.ts';
import type { PieceAct } from './grid/grid-keys.ts';
import { onlyCell, selectedRows } from './grid/row-selection.ts';

export interface BenchActs {
  /** False, with the reason shown, when the edit is refused. Null edits are passed over. */
  readonly apply: (edit: Edit | null) => boolean;
  readonly onPiece: (act: PieceAct) => void;
  /** Takes the entry line's text into the primary in hand; null when taken, else why not. */
  readonly enter: (text: string) => string | null;
  /** Rows of a spreadsheet, after the rows selected. */
  readonly paste: (text: string) => void;
  /** As `paste`, to where the entry line puts pieces; null when taken, else why not. */
  readonly enterRows: (text: string) => string | null;
  /** The rows selected, for the clipboard; null when there are none. Copies of welded pieces are planned, but not what is cut out. */
  readonly copyText: (isCut: boolean) => string | null;
  readonly goBy: (by: number) => void;
  readonly addPrimary: () => void;
  readonly addPrimaries: (count: number) => void;
  readonly duplicatePrimary: (primaryId: string) => void;
  readonly removePrimary: (primaryId: string) => void;
  readonly movePrimary: (primaryId: string, by: number) => void;
}

/** `focusEntry` puts the caret into the entry line. */
export function useBenchActs(session: HeaderSession, view: BenchView, focusEntry: () => void): BenchActs {
  const notice = useNotice();
  const apply = (edit: Edit | null): boolean => {
    if (edit === null) return false;
    const done = session.apply(edit);
    if (!done.ok) notice({ text: wordsFor(done.problems), tone: 'trouble' });
    return done.ok;
  };
  return {
    apply,
    ...pieceActs({ session, view, apply, focusEntry, notice }),
    ...primaryActs({ session, view, apply, focusEntry }),
  };
}

interface Reach {
  readonly session: HeaderSession;
  readonly view: BenchView;
  readonly apply: (edit: Edit | null) => boolean;
  readonly focusEntry: () => void;
}

/** The place in the list where the next piece goes. */
export function insertPlace({ primary, insertAfterId }: Pick<BenchView, 'primary' | 'insertAfterId'>): number {
  if (insertAfterId === BEFORE_FIRST) return 0;
  const after = primary?.pieces.findIndex((piece) => piece.id === insertAfterId) ?? -1;
  return after === -1 ? (primary?.pieces.length ?? 0) : after + 1;
}

/** How typed and pasted text is read now. */
function reading(session: HeaderSession) {
  const { display, clr } = session.getState().header.settings;
  return { unit: unitOf(display), clr, decimalComma: writesDecimalComma() };
}

type Saying = Reach & { readonly notice: (notice: Notice) => void };

function pieceActs(reach: Saying) {
  const { session, view } = reach;
  return {
    onPiece: (act: PieceAct) => onPiece(reach, act),
    enter: (text: string) => enter(reach, text),
    paste(text: string): void {
      const { primary, cell } = view;
      if (primary === null || text.trim() === '') return;
      const last = Math.max(...selectedRows(view, primary.pieces));
      const problem = pasteAt(reach, text, cell === null ? primary.pieces.length : last + 1);
      if (problem !== null) reach.notice({ text: problem, tone: 'trouble' });
    },
    enterRows: (text: string) => (view.primary === null ? null : pasteAt(reach, text, insertPlace(view), true)),
    copyText(isCut: boolean): string | null {
      if (view.pieces.length === 0) return null;
      const pieces = isCut ? view.pieces : view.pieces.map((piece) => pieceCopy(piece, piece.id));
      return copiedPieces(pieces, reading(session));
    },
  };
}

function onPiece({ session, view, apply, focusEntry }: Reach, act: PieceAct): void {
  const { primary, piece, cell, pieces } = view;
  if (primary === null || piece === null || cell === null) return;
  const ids = pieces.map(({ id }) => id);
  const rows = [...selectedRows(view, primary.pieces)];
  const [first = cell.row, last = cell.row] = [rows[0], rows.at(-1)];
  /** The rows stay selected where they have gone, together. */
  const selectFrom = (row: number) =>
    view.change({ cell: { ...cell, row }, anchorRow: rows.length > 1 ? row + rows.length - 1 : null, pickedIds: [] });
  switch (act.kind) {
    case 'insert':
      view.change({ insertAfterIds: idsAbove(primary, first) });
      focusEntry();
      return;
    case 'remove':
      if (apply(removePiecesEdit(primary, ids))) view.change(onlyCell({ ...cell, row: first }));
      return;
    case 'shift':
      if (apply(shiftPiecesEdit(primary, ids, act.by))) selectFrom(act.by < 0 ? first - 1 : last + 2 - rows.length);
      return;
    case 'moveBefore':
      if (apply(movePiecesEdit(primary, ids, act.row))) {
        selectFrom(act.row - rows.filter((row) => row < act.row).length);
      }
      return;
    case 'duplicate':
      if (apply(duplicatePiecesEdit(primary, ids, () => session.newId()))) selectFrom(last + 1);
      return;
    case 'setState':
      apply(setStateEdit(primary, pieces, act.state));
      return;
    case 'toggleLock':
      apply(setLockedEdit(primary, pieces, !piece.locked));
      return;
    default:
      assertNever(act);
  }
}

/** Null when taken, else why not. */
function enter({ session, view }: Reach, text: string): string | null {
  const { primary } = view;
  if (primary === null) return null;
  const at = insertPlace(view);
  const read = parseQuickEntry(text, { ...reading(session), previous: primary.pieces[at - 1] ?? null });
  if (!read.ok) return wordsFor(read.problems);
  const pieces = read.value.map((quick) => pieceFromQuick(quick, session.newId()));
  const edit = addPiecesEdit(primary, pieces, at);
  const done = edit === null ? null : session.apply(edit);
  if (done?.ok === false) return wordsFor(done.problems);
  goOnAfter(view, pieces);
  return null;
}

/** What is entered next goes after what was entered now, also where undo takes it back. */
function goOnAfter(view: BenchView, pieces: readonly Piece[]): void {
  if (view.insertAfterId === null) return;
  view.change({ insertAfterIds: [...pieces.map(({ id }) => id).reverse(), ...view.insertAfterIds] });
}

/** Null when taken, else why not. */
function pasteAt({ session, view, notice }: Saying, text: string, at: number, goesOn = false): string | null {
  const { primary } = view;
  if (primary === null) return null;
  const read = readPastedPieces(text, { ...reading(session), newId: () => session.newId() });
  // All or nothing: half of a list in the wrong place is worse than none.
  if (read.refused.length > 0) return refusedWords(read.refused);
  const edit = addPiecesEdit(primary, read.pieces, at);
  const done = edit === null ? null : session.apply(edit);
  if (done?.ok === false) return wordsFor(done.problems);
  if (goesOn) goOnAfter(view, read.pieces);
  if (read.commas.length > 0) notice({ text: commasWords(read.commas) });
  return null;
}

function refusedWords(refused: readonly RefusedRow[]): string {
  const shown = refused.slice(0, 3).map((row) => `Row ${row.line}: ${wordsFor([row.problem])}`);
  return `Nothing was pasted. ${shown.join(' ')}${refused.length > 3 ? ` And ${refused.length - 3} more.` : ''}`;
}

function primaryActs({ session, view, apply, focusEntry }: Reach) {
  const headerNow = () => session.getState().header;
  return {
    goBy(by: number): void {
      const primary = primaryBy(headerNow(), view.primaryId, by);
      if (primary !== null) view.selectPrimary(primary.id);
    },
    addPrimary(): void {
      const id = session.newId();
      if (!apply(addPrimaryEdit(headerNow(), id))) return;
      view.selectPrimary(id);
      focusEntry();
    },
    addPrimaries(count: number): void {
      const ids = Array.from({ length: count }, () => session.newId());
      if (!apply(addPrimariesEdit(headerNow(), ids))) return;
      view.selectPrimary(ids[0] ?? '');
      focusEntry();
    },
    duplicatePrimary(primaryId: string): void {
      apply(duplicatePrimaryEdit(headerNow(), primaryId, () => session.newId()));
    },
    removePrimary(primaryId: string): void {
      apply(removePrimaryEdit(headerNow(), primaryId));
    },
    movePrimary(primaryId: string, by: number): void {
      apply(movePrimaryEdit(headerNow(), primaryId, by));
    },
  };
}
