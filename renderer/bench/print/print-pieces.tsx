/** The pieces of one primary as a table on paper, every size as it was typed: what is printed is cut. */

import {
  formatLengthBare,
  formatTypedAngle,
  type Header,
  type Length,
  type LengthUnit,
  type Piece,
  type Primary,
  typedText,
  unitOf,
} from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { pieceName } from '../../ui/words/piece-words.ts';

interface Props {
  readonly primary: Primary;
  readonly header: Header;
  readonly pieceLengthsMm: readonly number[];
}

export function PrintPieces({ primary, header, pieceLengthsMm }: Props) {
  const { display } = header.settings;
  const unit = unitOf(display);
  let runMm = 0;
  const rows = primary.pieces.map((piece, index) => {
    runMm += pieceLengthsMm[index] ?? 0;
    return { piece, total: formatLengthBare(runMm, display) };
  });
  return (
    <table className="print-pieces">
      <thead>
        <tr>
          <th scope="col" className="number">
            #
          </th>
          <th scope="col">Piece</th>
          <th scope="col" className="number">
            Size ({unit}, °)
          </th>
          <th scope="col" className="number">
            CLR ({unit})
          </th>
          <th scope="col" className="number">
            Clock (°)
          </th>
          <th scope="col" className="number">
            Total ({unit})
          </th>
          <th scope="col">State</th>
          <th scope="col">Note</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ piece, total }, index) => (
          <PieceRow key={piece.id} piece={piece} number={index + 1} total={total} unit={unit} />
        ))}
      </tbody>
    </table>
  );
}

interface RowProps {
  readonly piece: Piece;
  readonly number: number;
  readonly total: string;
  readonly unit: LengthUnit;
}

function PieceRow({ piece, number, total, unit }: RowProps) {
  const typed = (length: Length) => typedText(length, unit);
  const isStraight = piece.kind === 'straight';
  return (
    <tr>
      <td className="number">{number}</td>
      <td>{pieceName(piece)}</td>
      <td className="number">
        <FigureText text={isStraight ? typed(piece.length) : `${formatTypedAngle(piece.angleDeg)}°`} />
      </td>
      <td className="number">{isStraight ? null : <FigureText text={typed(piece.clr)} />}</td>
      <td className="number">{isStraight ? null : clockText(piece.clockingDeg)}</td>
      <td className="number">
        <FigureText text={total} />
      </td>
      <td>{piece.locked ? `${piece.state}, locked` : piece.state}</td>
      <td>{piece.note}</td>
    </tr>
  );
}

function clockText(clockingDeg: number | null): string {
  return clockingDeg === null ? '–' : formatTypedAngle(clockingDeg);
}
