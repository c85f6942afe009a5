/** What can be done on the bench: each act turns what is selected into edits, and moves the selection along. */

import {
  addPiecesEdit,
  addPrimariesEdit,
  addPrimaryEdit,
  assertNever,
  copiedPieces,
  duplicatePieceEdit,
  duplicatePrimaryEdit,
  type Edit,
  movePieceEdit,
  movePrimaryEdit,
  nextState,
  parseQuickEntry,
  pieceFromQuick,
  type RefusedRow,
  readPastedPieces,
  removePiecesEdit,
  removePrimaryEdit,
  setLockedEdit,
  setStateEdit,
  unitOf,
} from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { useNotice } from '../ui/notices.tsx';
import { wordsFor } from '../ui/words/problem-words.ts';
import { BEFORE_FIRST, type BenchView, primaryBy } from './bench-view.ts';
import type { PieceAct } from './grid/grid-events.ts';

export interface BenchActs {
  /** False, with the reason shown, when the edit is refused. Null edits are passed over. */
  readonly apply: (edit: Edit | null) => boolean;
  readonly onPiece: (act: PieceAct) => void;
  /** Takes the entry line's text into the primary in hand; null when taken, else why not. */
  readonly enter: (text: string) => string | null;
  readonly paste: (text: string) => void;
  readonly copyText: () => string | null;
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
    ...pieceActs({ session, view, apply, focusEntry, say: (text) => notice({ text, tone: 'trouble' }) }),
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
  return { unit: unitOf(display), clr };
}

type Saying = Reach & { readonly say: (text: string) => void };

function pieceActs(reach: Saying) {
  return {
    onPiece: (act: PieceAct) => onPiece(reach, act),
    enter: (text: string) => enter(reach, text),
    paste: (text: string) => paste(reach, text),
    copyText: () => (reach.view.pieces.length === 0 ? null : copiedPieces(reach.view.pieces, reading(reach.session))),
  };
}

function onPiece({ session, view, apply, focusEntry }: Reach, act: PieceAct): void {
  const { primary, piece, cell, pieces } = view;
  if (primary === null || piece === null || cell === null) return;
  const goToRow = (row: number) => view.change({ cell: { ...cell, row }, anchorRow: null });
  switch (act.kind) {
    case 'insert':
      view.change({ insertAfterId: primary.pieces[cell.row - 1]?.id ?? BEFORE_FIRST });
      focusEntry();
      return;
    case 'remove':
    case 'cut':
      if (
        apply(
          removePiecesEdit(
            primary,
            pieces.map(({ id }) => id),
          ),
        )
      ) {
        goToRow(Math.min(cell.row, view.anchorRow ?? cell.row));
      }
      return;
    case 'move':
      if (apply(movePieceEdit(primary, piece.id, act.by))) goToRow(cell.row + act.by);
      return;
    case 'duplicate':
      if (apply(duplicatePieceEdit(primary, piece.id, session.newId()))) goToRow(cell.row + 1);
      return;
    case 'cycleState':
      apply(setStateEdit(primary, pieces, nextState(piece.state)));
      return;
    case 'toggleLock':
      apply(setLockedEdit(primary, pieces, !piece.locked));
      return;
    case 'copy':
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
  if (view.insertAfterId !== null) view.change({ insertAfterId: pieces.at(-1)?.id ?? null });
  return null;
}

function paste({ session, view, apply, say }: Saying, text: string): void {
  const { primary, cell } = view;
  if (primary === null || text.trim() === '') return;
  const read = readPastedPieces(text, { ...reading(session), newId: () => session.newId() });
  // All or nothing: half of a list in the wrong place is worse than none.
  if (read.refused.length > 0) say(refusedWords(read.refused));
  else apply(addPiecesEdit(primary, read.pieces, cell === null ? primary.pieces.length : cell.row + 1));
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
