/** What a cut plan is asked: the pieces wanted, the stock at hand, and how the shop saws. */

/** Tube by its size; two are one tube when material and sizes agree as `sameTube` says. */
export interface CutTube {
  readonly material: string;
  readonly odMm: number;
  readonly wallMm: number;
}

/** A piece to be cut. Ids are unique among all pieces of a problem. */
export type CutPiece =
  | { readonly kind: 'straight'; readonly id: string; readonly tube: CutTube; readonly lengthMm: number }
  | {
      readonly kind: 'bend';
      readonly id: string;
      readonly tube: CutTube;
      readonly clrMm: number;
      readonly angleDeg: number;
    };

/** A joint between a straight and a bend: cut as one piece, with the straight as the bend's leg, it needs no weld. */
export interface CutJoint {
  readonly straightId: string;
  readonly bendId: string;
}

interface StockRowCommon {
  readonly id: string;
  readonly tube: CutTube;
  /** Whole pieces at hand. */
  readonly count: number;
  /** Of opening one, in the shop's money; a remnant costs nothing, whatever stands here. */
  readonly cost: number;
  readonly isRemnant: boolean;
}

/** A row of the shelf: pieces that are alike. Legs are the straight parts at the two ends of a bend, mm. */
export type StockRow = StockRowCommon &
  (
    | { readonly kind: 'straight'; readonly lengthMm: number }
    | {
        readonly kind: 'bend';
        readonly clrMm: number;
        readonly angleDeg: number;
        readonly legsMm: readonly [number, number];
      }
  );

export interface SawSettings {
  /** Tube that the saw turns to dust at each cut, mm along the centreline. */
  readonly kerfMm: number;
  /** Tube left on each sawn end, of a piece or a remnant, to be dressed off square, mm. The stock's own ends are taken as they are. */
  readonly facingMm: number;
  /** A remnant shorter than this is scrap, mm: of a straight its length, of a bent one its arc. */
  readonly shortestRemnantMm: number;
}

export interface CutProblem {
  readonly pieces: readonly CutPiece[];
  readonly joints: readonly CutJoint[];
  readonly stock: readonly StockRow[];
  readonly saw: SawSettings;
}

/** Tube that one cut takes, mm along the centreline: the kerf, and the facing of both ends that it makes. */
export function cutWidthMm({ kerfMm, facingMm }: SawSettings): number {
  return kerfMm + 2 * facingMm;
}

/** What a sum of lengths (mm) or angles (degrees) may be over by rounding alone and still fit. */
export const FIT = 1e-9;
