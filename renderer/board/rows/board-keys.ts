/** What the keys do on the board. */

import type { Header } from '../../../core/index.ts';

/** The piece pointed at or gone to: the one that is read out. */
export interface ReadPiece {
  readonly primaryId: string;
  /** Place in the primary, counted from 0. */
  readonly index: number;
}

export function pieceIdAt(header: Header, read: ReadPiece | null): string | null {
  const primary = header.primaries.find((candidate) => candidate.id === read?.primaryId);
  return primary?.pieces[read?.index ?? -1]?.id ?? null;
}

interface BoardKey {
  readonly key: string;
  readonly header: Header;
  /** Places in the header of its primaries, in the order of the rows. */
  readonly rows: readonly number[];
  readonly primaryId: string | null;
  readonly read: ReadPiece | null;
}

/** Up and down go from primary to primary, left and right read out its pieces, Enter chooses the one read out. */
export function boardKey({ key, header, rows, primaryId, read }: BoardKey): {
  readonly primaryId: string;
  readonly read: ReadPiece | null;
  readonly choose: boolean;
} | null {
  const at = Math.max(
    0,
    rows.findIndex((place) => header.primaries[place]?.id === primaryId),
  );
  const primaryAt = (row: number) => header.primaries[rows[row] ?? -1];
  const rowTo = (row: number) => {
    const primary = primaryAt(Math.min(rows.length - 1, Math.max(0, row)));
    return primary === undefined ? null : { primaryId: primary.id, read: null, choose: false };
  };
  const pieceTo = (index: number) => {
    const primary = primaryAt(at);
    if (primary === undefined || primary.pieces.length === 0) return null;
    const clamped = Math.min(primary.pieces.length - 1, Math.max(0, index));
    return { primaryId: primary.id, read: { primaryId: primary.id, index: clamped }, choose: false };
  };
  const readAt = read?.primaryId === primaryId ? (read?.index ?? -1) : -1;
  switch (key) {
    case 'ArrowDown':
      return rowTo(at + 1);
    case 'ArrowUp':
      return rowTo(at - 1);
    case 'Home':
      return rowTo(0);
    case 'End':
      return rowTo(rows.length - 1);
    case 'ArrowRight':
      return pieceTo(readAt + 1);
    case 'ArrowLeft':
      return pieceTo(readAt === -1 ? 0 : readAt - 1);
    case 'Enter':
      return read === null || primaryId === null ? null : { primaryId, read, choose: true };
    default:
      return null;
  }
}
