/** The document: one header with its primaries, pieces, collectors and settings, as the open file stores it. */

import type { Length } from '../units/length.ts';
import type { LengthStyle } from '../units/length-style.ts';
import type { Engine, TunedSource } from './engine.ts';
import type { Measurement, ShopTolerances } from './measured.ts';

/** How far a piece has come at the bench. Welded pieces are never changed by a suggested move. */
export type PieceState = 'planned' | 'cut' | 'tacked' | 'welded';

export const PIECE_STATES: readonly PieceState[] = ['planned', 'cut', 'tacked', 'welded'];

interface PieceCommon {
  /** Unique within the header. */
  readonly id: string;
  readonly state: PieceState;
  /** Locked pieces are left alone by suggested moves. */
  readonly locked: boolean;
  readonly note: string;
}

interface BendShape {
  /** Centreline radius; above zero. */
  readonly clr: Length;
  /** Above 0, up to 360 degrees. */
  readonly angleDeg: number;
  /**
   * Rotation of the bend's plane about the tube axis relative to the bend before it, right-hand rule along the
   * direction of travel from the port; the first bend's is relative to the port's up direction. Null: not recorded.
   */
  readonly clockingDeg: number | null;
}

export interface Straight extends PieceCommon {
  readonly kind: 'straight';
  /** Zero or more. */
  readonly length: Length;
}

export interface Bend extends PieceCommon, BendShape {
  readonly kind: 'bend';
}

/** A bend welded up from equal mitred pies, as many cuts as pies; CLR is taken to the middle of a pie. */
export interface PieCutBend extends PieceCommon, BendShape {
  readonly kind: 'pieCut';
  /** Number of equal chords that the angle is divided over; a whole number, 1 to 90. */
  readonly pies: number;
}

export type Piece = Straight | Bend | PieCutBend;

export interface Tube {
  readonly material: string;
  readonly od: Length;
  readonly wall: Length;
}

/** A direction in the header frame (forward, outboard, up); any length but zero. */
export interface Direction {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** A place in the header frame: x forward, y outboard, z up. */
export interface Place {
  readonly x: Length;
  readonly y: Length;
  readonly z: Length;
}

/** Where a tube starts or must end: a place, the direction of travel through it, and what counts as up there. */
export interface Pose {
  readonly at: Place;
  readonly direction: Direction;
  readonly up: Direction;
}

export interface Primary {
  readonly id: string;
  /** What the shop calls it, usually the cylinder number. */
  readonly name: string;
  /** Null: the header's tube. */
  readonly tube: Tube | null;
  /** Pose of the port's flange face, direction pointing out of the head. Null: not measured. */
  readonly port: Pose | null;
  /** The collector inlet that this primary must end in. Null: not assigned. */
  readonly inletId: string | null;
  readonly pieces: readonly Piece[];
  /** What was measured on the finished tube, at most one reading a method. Not there: nothing was. */
  readonly measured?: readonly Measurement[];
}

/** Where an inlet is: a measured pose, or wherever another primary ends. */
export type InletPlace =
  | { readonly kind: 'pose'; readonly pose: Pose }
  | { readonly kind: 'endOf'; readonly primaryId: string };

export interface Inlet {
  readonly id: string;
  readonly name: string;
  /** Null: not measured. */
  readonly place: InletPlace | null;
  /** How far the tube may sit deeper into, or further out of, the inlet along its axis. */
  readonly slip: { readonly deeper: Length; readonly shallower: Length };
}

export interface Collector {
  readonly id: string;
  readonly name: string;
  readonly inlets: readonly Inlet[];
}

/** A simple body that tubes must keep clear of: a rail, a steering shaft, a wheel well. */
export type Obstacle =
  | {
      readonly kind: 'box';
      readonly id: string;
      readonly name: string;
      readonly corner: Place;
      readonly opposite: Place;
    }
  | {
      readonly kind: 'cylinder';
      readonly id: string;
      readonly name: string;
      readonly from: Place;
      readonly to: Place;
      readonly diameter: Length;
    }
  | {
      readonly kind: 'plane';
      readonly id: string;
      readonly name: string;
      readonly at: Place;
      /** Points to the side where the tubes are. */
      readonly normal: Direction;
    };

/** What every primary's length is matched to. */
export type Target =
  | { readonly kind: 'longest' }
  | { readonly kind: 'mean' }
  | { readonly kind: 'primary'; readonly primaryId: string }
  /** `tuned` says which formula the length came from; typing another length takes it away. */
  | { readonly kind: 'typed'; readonly length: Length; readonly tuned?: TunedSource };

export interface Settings {
  readonly target: Target;
  /** How far below and above the target is accepted; both zero or more. */
  readonly tolerance: { readonly minus: Length; readonly plus: Length };
  readonly display: LengthStyle;
  readonly tube: Tube;
  /** CLR that a bend gets when none is typed. */
  readonly clr: Length;
  /** Length lost at each welded joint; zero turns it off. */
  readonly weldShrinkage: Length;
  /** No straight is cut shorter than this. */
  readonly shortestStraight: Length;
  /** How far a primary's end may miss its inlet and still count as closed. */
  readonly closure: { readonly gap: Length; readonly tiltDeg: number };
  /** Least gap wanted between the outsides of two tubes. */
  readonly wantedGap: Length;
}

export interface Header {
  readonly id: string;
  readonly name: string;
  readonly note: string;
  /** A finished header is frozen; work goes on in a copy. */
  readonly state: 'open' | 'finished';
  readonly settings: Settings;
  /** In the order the shop wants to see them. */
  readonly primaries: readonly Primary[];
  readonly collectors: readonly Collector[];
  readonly obstacles: readonly Obstacle[];
  /** How exactly the shop works. Not there: it has not said. */
  readonly tolerances?: ShopTolerances;
  /** Not there: not said. */
  readonly engine?: Engine;
}

/** The outside diameter, wall and material that a primary is made of. */
export function tubeOf(header: Header, primary: Primary): Tube {
  return primary.tube ?? header.settings.tube;
}
