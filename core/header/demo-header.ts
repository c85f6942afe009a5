/**
 * A header to look at and play with, of our own invention: a four-cylinder head with its ports in a row, and a
 * 4-into-1 collector that points down below cylinder 1.
 *
 * The frame starts at port 1: x forward, y out of the head, z up. Cylinder 4 is farthest from the collector; it is
 * finished and sets the length. 1 is in the band, 2 is 1/4 in long and 3 is 3/16 in short. Inlets 1 and 4 are where
 * those primaries end, to within 0.1 mm; 2 and 3 were measured before, and their primaries miss them by a little.
 */

import { inches } from '../units/length.ts';
import type { Collector, Header, Inlet, Piece, PieceState, Pose, Primary } from './header.ts';
import { DEFAULT_SETTINGS } from './new-header.ts';

/** A straight by its length, or a bend by its angle, clocking and CLR if not the usual one; inches and degrees. */
type Cut = number | readonly [angleDeg: number, clockingDeg: number, clrIn?: number];

const USUAL_CLR_IN = 3;

/** The demo header under the given id. The ids of its parts are always the same. */
export function demoHeader(id: string): Header {
  return {
    id,
    name: 'Hill-climb four',
    note: 'A made-up header to try things on. Cylinder 4 went in first and sets the length.',
    state: 'open',
    settings: { ...DEFAULT_SETTINGS, target: { kind: 'primary', primaryId: 'primary-4' } },
    primaries: [
      primary(1, 0, piecesOf(1, [5.5, [90, 60], 1.375, [90, 90], 1.875, [75, 0], 7, [45, 180], 3.75], [4, 9])),
      primary(
        2,
        -4.25,
        piecesOf(2, [3.5, [90, 60], 2.875, [60, 90, 4], 1, [90, 0], 7.5, [30, 180, 4], 4.9375], [0, 9]),
      ),
      primary(3, -8.5, piecesOf(3, [8.25, [90, 90], 3, [90, 30], 0.75, [60, 90], 10.5], [0, 7])),
      primary(4, -12.75, piecesOf(4, [5.5, [90, 60], 2.5, [90, 90], 8, [30, 0], 8.25], [7, 7])),
    ],
    collectors: [collector()],
    obstacles: [],
  };
}

/** How many pieces, from the port on, are welded, and how many are there at all; the rest is planned. */
type Progress = readonly [welded: number, there: number];

function primary(number: number, portXIn: number, pieces: readonly Piece[]): Primary {
  const port: Pose = {
    at: { x: inches(portXIn), y: inches(0), z: inches(0) },
    direction: { x: 0, y: 1, z: 0 },
    up: { x: 0, y: 0, z: 1 },
  };
  return { id: `primary-${number}`, name: String(number), tube: null, port, inletId: `inlet-${number}`, pieces };
}

function piecesOf(number: number, cuts: readonly Cut[], [welded, there]: Progress): readonly Piece[] {
  const stateAt = (index: number): PieceState => (index < welded ? 'welded' : index < there ? 'tacked' : 'planned');
  return cuts.map((cut, index): Piece => {
    const common = { id: `piece-${number}-${index + 1}`, state: stateAt(index), locked: false, note: '' };
    if (typeof cut === 'number') return { kind: 'straight', ...common, length: inches(cut) };
    const [angleDeg, clockingDeg, clrIn = USUAL_CLR_IN] = cut;
    return { kind: 'bend', ...common, clr: inches(clrIn), angleDeg, clockingDeg };
  });
}

function collector(): Collector {
  return {
    id: 'collector-1',
    name: '4-into-1',
    inlets: [
      inlet(1, { x: 2.5193, y: 8.5, z: -14.9768 }),
      inlet(2, { x: 2.5, y: 6.5, z: -15 }),
      inlet(3, { x: 0.5, y: 6.5, z: -15 }),
      inlet(4, { x: 0.5131, y: 8.5, z: -15.0263 }),
    ],
  };
}

function inlet(number: number, atIn: { readonly x: number; readonly y: number; readonly z: number }): Inlet {
  const pose: Pose = {
    at: { x: inches(atIn.x), y: inches(atIn.y), z: inches(atIn.z) },
    direction: { x: 0, y: 0, z: -1 },
    up: { x: 1, y: 0, z: 0 },
  };
  const slip = { deeper: inches(0.25), shallower: inches(0.25) };
  return { id: `inlet-${number}`, name: String(number), place: { kind: 'pose', pose }, slip };
}
