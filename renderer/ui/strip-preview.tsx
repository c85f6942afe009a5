/** A small drawing of a header: one strip a primary, its pieces told apart by outline and hatch. */

import { useId } from 'react';
import { type Header, type Piece, pieceLength } from '../../core/index.ts';

export interface StripPrimary {
  readonly name: string;
  readonly pieces: readonly { readonly kind: Piece['kind']; readonly lengthMm: number }[];
}

export interface StripBox {
  readonly kind: Piece['kind'];
  readonly x: number;
  readonly width: number;
}

/** Where each piece is drawn, the longest primary filling `width`. An empty header gives empty rows. */
export function layOutStrips(primaries: readonly StripPrimary[], width: number): readonly (readonly StripBox[])[] {
  const totals = primaries.map((primary) => primary.pieces.reduce((sum, piece) => sum + piece.lengthMm, 0));
  const longestMm = Math.max(0, ...totals);
  const perMm = longestMm > 0 ? width / longestMm : 0;
  return primaries.map((primary) => {
    let xMm = 0;
    return primary.pieces.map((piece) => {
      const box = { kind: piece.kind, x: xMm * perMm, width: piece.lengthMm * perMm };
      xMm += piece.lengthMm;
      return box;
    });
  });
}

export function stripsOf(header: Header): readonly StripPrimary[] {
  return header.primaries.map((primary) => ({
    name: primary.name,
    pieces: primary.pieces.map((piece) => ({ kind: piece.kind, lengthMm: pieceLength(piece) })),
  }));
}

interface Props {
  readonly primaries: readonly StripPrimary[];
  /** What the picture is of, for those who do not see it. */
  readonly title: string;
}

const WIDTH = 240;
const ROW = 12;
const BAR = 8;

export function StripPreview({ primaries, title }: Props) {
  const pattern = `hatch${useId().replace(/[^A-Za-z0-9]/g, '')}`;
  const rows = layOutStrips(primaries, WIDTH - 2);
  const height = Math.max(1, rows.length) * ROW;
  return (
    <svg className="strips" viewBox={`0 0 ${WIDTH} ${height}`} role="img" aria-label={title}>
      <defs>
        <pattern id={pattern} width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="0" y1="0" x2="0" y2="4" className="strips-hatch" />
        </pattern>
        <pattern id={`${pattern}x`} width="3" height="3" patternUnits="userSpaceOnUse">
          <path d="M0 0L3 3M3 0L0 3" className="strips-hatch" />
        </pattern>
      </defs>
      {rows.map((boxes, row) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a still picture; rows and boxes have no identity but their place
        <g key={row} transform={`translate(1 ${row * ROW + (ROW - BAR) / 2})`}>
          {boxes.map((box, place) => (
            <rect
              // biome-ignore lint/suspicious/noArrayIndexKey: as above
              key={place}
              x={box.x}
              width={box.width}
              height={BAR}
              className="strips-piece"
              fill={fillOf(box.kind, pattern)}
            />
          ))}
        </g>
      ))}
    </svg>
  );
}

function fillOf(kind: Piece['kind'], pattern: string): string {
  if (kind === 'straight') return 'none';
  return kind === 'bend' ? `url(#${pattern})` : `url(#${pattern}x)`;
}
