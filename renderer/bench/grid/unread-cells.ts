/** Cell text that could not be read, kept by primary while its grid is not shown: what was typed stays. */

import type { HeaderSession } from '../../session/header-session.ts';
import type { CellEdit } from './piece-row.tsx';

/** By piece id. */
type Edits = ReadonlyMap<string, CellEdit>;

/** As long as a session: the grid goes away with every change of primary or screen. */
const kept = new WeakMap<HeaderSession, Map<string, Edits>>();

export function unreadCells(session: HeaderSession, primaryId: string): Edits {
  return kept.get(session)?.get(primaryId) ?? new Map();
}

/** Remembers the text of a cell with the reason why it was not taken; null, or text without a reason, forgets it. */
export function keepUnread(session: HeaderSession, at: UnreadPlace, edit: CellEdit | null): void {
  const byPrimary = kept.get(session) ?? new Map<string, Edits>();
  const edits = new Map(byPrimary.get(at.primaryId));
  if (edit === null || edit.problem === null) edits.delete(at.pieceId);
  else edits.set(at.pieceId, edit);
  byPrimary.set(at.primaryId, edits);
  kept.set(session, byPrimary);
}

interface UnreadPlace {
  readonly primaryId: string;
  readonly pieceId: string;
}
