/** The pieces that a proposal which is looked at would put at the end of the primary in hand, faintly: they are not in the header. */

import { type Header, type Piece, unitOf } from '../../core/index.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { clockingWords, pieceName, segmentLabel } from '../ui/words/piece-words.ts';
import { countOf } from '../ui/words/spoken.ts';

interface Props {
  readonly header: Header;
  readonly pieces: readonly Piece[];
  /** Pieces before them. */
  readonly after: number;
}

export function ProposedPieces({ header, pieces, after }: Props) {
  const { display } = header.settings;
  return (
    <div className="proposed-pieces">
      <p className="muted">
        Preview: {countOf(pieces.length, 'piece')} ({unitOf(display)})
      </p>
      <ol className="ghost-rows" start={after + 1}>
        {pieces.map((piece) => (
          <li key={piece.id} className="ghost-row">
            <FigureText text={pieceWords(piece, header)} />
          </li>
        ))}
      </ol>
    </div>
  );
}

function pieceWords(piece: Piece, { settings: { display } }: Header): string {
  const shape = `${pieceName(piece)} ${segmentLabel(piece, display)}`;
  return piece.kind === 'straight' || piece.clockingDeg === null
    ? shape
    : `${shape}, ${clockingWords(piece.clockingDeg)}`;
}
