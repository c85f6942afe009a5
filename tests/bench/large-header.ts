/** The header that speed is measured on: 8 primaries of 20 pieces each, of our own invention. */

import type { Header, Piece, Primary, Settings } from '../../core/header/header.ts';
import { inches } from '../../core/units/length.ts';

const PRIMARIES = 8;
const PIECES = 20;

function piece(primary: number, index: number): Piece {
  const common = { id: `p${primary}-${index}`, state: 'tacked', locked: false, note: '' } as const;
  if (index % 2 === 0) return { ...common, kind: 'straight', length: inches(1 + ((primary * 5 + index) % 16) / 16) };
  const clr = inches(index % 4 === 1 ? 2.5 : 3);
  const angleDeg = 15 + ((primary * 7 + index * 3) % 30);
  return { ...common, kind: 'bend', clr, angleDeg, clockingDeg: ((primary + index) * 45) % 180 };
}

function primary(index: number): Primary {
  const pieces = Array.from({ length: PIECES }, (_, at) => piece(index, at));
  return { id: `cyl-${index + 1}`, name: String(index + 1), tube: null, port: null, inletId: null, pieces };
}

/** The settings of `base`, with the 160 pieces. */
export function largeHeader(base: { readonly id: string; readonly settings: Settings }): Header {
  return {
    id: base.id,
    name: 'Eight by twenty',
    note: '',
    state: 'open',
    settings: base.settings,
    primaries: Array.from({ length: PRIMARIES }, (_, at) => primary(at)),
    collectors: [],
    obstacles: [],
  };
}
