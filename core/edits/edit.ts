/** Every way in which a header can change, and how several changes become one step. */

import type { Engine } from '../header/engine.ts';
import type { Collector, Header, Obstacle, Piece, Primary, Settings } from '../header/header.ts';
import type { Measurement, ShopTolerances } from '../header/measured.ts';
import { shortened } from '../header/names.ts';
import { NAME_LIMIT } from '../header/schema.ts';

/** Fields of a primary that can be set on their own; its pieces and what was measured on it have edits of their own. */
export type PrimaryFields = Omit<Primary, 'id' | 'pieces' | 'measured'>;

/** Fields of the header itself. */
export type HeaderFields = Pick<Header, 'name' | 'note'>;

/** One change of one thing. `at` and `to` are places in the list counted from 0, up to its length. */
export type SingleEdit =
  | { readonly kind: 'setHeader'; readonly set: Partial<HeaderFields> }
  | { readonly kind: 'setSettings'; readonly set: Partial<Settings> }
  /** Null: as if nobody had said. */
  | { readonly kind: 'setTolerances'; readonly tolerances: ShopTolerances | null }
  | { readonly kind: 'setEngine'; readonly engine: Engine | null }
  | { readonly kind: 'addPrimary'; readonly primary: Primary; readonly at: number }
  | { readonly kind: 'removePrimary'; readonly primaryId: string }
  | { readonly kind: 'movePrimary'; readonly primaryId: string; readonly to: number }
  | { readonly kind: 'setPrimary'; readonly primaryId: string; readonly set: Partial<PrimaryFields> }
  /** All that was measured on a primary; an empty list takes it away. */
  | { readonly kind: 'setMeasured'; readonly primaryId: string; readonly measured: readonly Measurement[] }
  | { readonly kind: 'addPiece'; readonly primaryId: string; readonly piece: Piece; readonly at: number }
  | { readonly kind: 'removePiece'; readonly primaryId: string; readonly pieceId: string }
  | { readonly kind: 'movePiece'; readonly primaryId: string; readonly pieceId: string; readonly to: number }
  | { readonly kind: 'replacePiece'; readonly primaryId: string; readonly piece: Piece }
  | { readonly kind: 'addCollector'; readonly collector: Collector; readonly at: number }
  | { readonly kind: 'removeCollector'; readonly collectorId: string }
  | { readonly kind: 'replaceCollector'; readonly collector: Collector }
  | { readonly kind: 'addObstacle'; readonly obstacle: Obstacle; readonly at: number }
  | { readonly kind: 'removeObstacle'; readonly obstacleId: string }
  | { readonly kind: 'replaceObstacle'; readonly obstacle: Obstacle }
  | { readonly kind: 'finishHeader' }
  | { readonly kind: 'reopenHeader' };

/** Several edits that are one step for the person who undoes them: all happen or none does. */
export interface BatchEdit {
  readonly kind: 'batch';
  readonly label: string;
  readonly edits: readonly SingleEdit[];
}

export type Edit = SingleEdit | BatchEdit;

/** Several edits as one step. A label that is longer than a step's may be is shortened. */
export function batchOf(label: string, edits: readonly SingleEdit[]): BatchEdit {
  return { kind: 'batch', label: shortened(label, NAME_LIMIT), edits };
}

/** As `batchOf`, but null for none, and a single edit as it is: what it says of itself is nearer than the label. */
export function oneStep(label: string, edits: readonly SingleEdit[]): Edit | null {
  const [first] = edits;
  if (first === undefined) return null;
  return edits.length === 1 ? first : batchOf(label, edits);
}
