/** Headers for the length tests, made of nothing but the pieces that a test is about. */

import type { Bend, Header, PieCutBend, Piece, Primary, Settings, Straight } from '../../../core/header/header.ts';
import { inches, type Length, millimetres } from '../../../core/units/length.ts';

let made = 0;

function common() {
  made += 1;
  return { id: `piece-${made}`, state: 'tacked', locked: false, note: '' } as const;
}

export function straight(length: Length): Straight {
  return { kind: 'straight', ...common(), length };
}

export function bend(clr: Length, angleDeg: number): Bend {
  return { kind: 'bend', ...common(), clr, angleDeg, clockingDeg: null };
}

export function pieCut(clr: Length, angleDeg: number, pies: number): PieCutBend {
  return { kind: 'pieCut', ...common(), clr, angleDeg, clockingDeg: null, pies };
}

export function primary(id: string, pieces: readonly Piece[]): Primary {
  return { id, name: id, tube: null, port: null, inletId: null, pieces };
}

const SETTINGS: Settings = {
  target: { kind: 'longest' },
  tolerance: { minus: inches(1 / 16), plus: inches(1 / 16) },
  display: { kind: 'fraction', per: 16 },
  tube: { material: '304', od: inches(1.75), wall: inches(0.065) },
  clr: inches(3),
  weldShrinkage: millimetres(0),
  shortestStraight: inches(0.5),
  closure: { gap: millimetres(0.5), tiltDeg: 0.25 },
  wantedGap: inches(0.25),
};

export function header(primaries: readonly Primary[], settings: Partial<Settings> = {}): Header {
  return {
    id: 'header',
    name: 'Length test',
    note: '',
    state: 'open',
    settings: { ...SETTINGS, ...settings },
    primaries,
    collectors: [],
    obstacles: [],
  };
}
