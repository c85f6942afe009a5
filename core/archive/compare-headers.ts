/** Two headers side by side, as figures: what each has, and by how much the other differs. */

import { asBuilt } from '../asbuilt/as-built.ts';
import type { Header, Primary } from '../header/header.ts';
import { buildFigures } from '../length/build-figures.ts';
import { matchHeader } from '../length/match-header.ts';
import { cutPieceId } from '../stock/plan/from-shelf.ts';
import type { KeptPlan, PlacedPiece } from '../stock/plan/kept-plan.ts';
import { cutList } from '../stock/plan/saw/cut-list.ts';
import { mmOf } from '../units/length.ts';

/** One figure of both; `by` is the other's minus the first's, null where one of them has none. */
export type ComparedFigure =
  | {
      readonly kind: 'length';
      readonly name: string;
      readonly values: Both<number | null>;
      readonly byMm: number | null;
      /** To be shown finer than lengths are: a sixteenth of an inch is as much as a whole wall. */
      readonly isFine: boolean;
    }
  | {
      readonly kind: 'count';
      readonly name: string;
      readonly values: Both<number | null>;
      readonly by: number | null;
    }
  | { readonly kind: 'words'; readonly name: string; readonly values: Both<string>; readonly isSame: boolean };

export type Both<Value> = readonly [one: Value, other: Value];

/** A primary of each, by its port. Null: the header has no such primary. */
export interface ComparedPrimary {
  readonly names: Both<string | null>;
  /** Zero where it has no pieces. */
  readonly lengthsMm: Both<number | null>;
  readonly byMm: number | null;
  /** Centreline by what was measured on it; null where nothing was. */
  readonly builtMm: Both<number | null>;
  readonly builtByMm: number | null;
}

export interface HeaderComparison {
  readonly figures: readonly ComparedFigure[];
  readonly primaries: readonly ComparedPrimary[];
}

/** A header with the cut plans that were carried out for it. */
export interface HeaderAndPlans {
  readonly header: Header;
  readonly plans: readonly KeptPlan[];
}

/**
 * Compares what two headers are and what they took. Primaries are paired by their names, which shops take from the cylinders;
 * those that are called alike in the order in which they stand, those whose name the other has not in theirs, and what is left stands alone, the first header's before the
 * other's. Lengths are in mm. Linear in the pieces of both.
 */
export function compareHeaders(one: HeaderAndPlans, other: HeaderAndPlans): HeaderComparison {
  return { figures: comparedFigures(one, other), primaries: comparedPrimaries(one.header, other.header) };
}

function comparedFigures(one: HeaderAndPlans, other: HeaderAndPlans): readonly ComparedFigure[] {
  const [a, b] = [figuresOf(one), figuresOf(other)];
  const length = (name: string, read: (figures: Figures) => number | null, isFine = false): ComparedFigure => {
    const values: Both<number | null> = [read(a), read(b)];
    return { kind: 'length', name, values, byMm: between(values), isFine };
  };
  const count = (name: string, read: (figures: Figures) => number | null): ComparedFigure => {
    const values: Both<number | null> = [read(a), read(b)];
    return { kind: 'count', name, values, by: between(values) };
  };
  const isSameMaterial = a.tube.material.toLowerCase() === b.tube.material.toLowerCase();
  return [
    length('Target', ({ targetMm }) => targetMm),
    length('Mean', ({ meanMm }) => meanMm),
    length('Spread', ({ spreadMm }) => spreadMm),
    length('Tube OD', ({ tube }) => mmOf(tube.od)),
    length('Wall', ({ tube }) => mmOf(tube.wall), true),
    { kind: 'words', name: 'Material', values: [a.tube.material, b.tube.material], isSame: isSameMaterial },
    count('Primaries', ({ primaryCount }) => primaryCount),
    count('Bends', ({ bends }) => bends),
    count('Pie-cut bends', ({ pieCuts }) => pieCuts),
    count('Straights', ({ straights }) => straights),
    count('Joints between pieces', ({ joints }) => joints),
    count('Saw cuts, by cut plans', ({ sawCuts }) => sawCuts),
    length('Tube in it', ({ tubeMm }) => tubeMm),
  ];
}

function between([one, other]: Both<number | null>): number | null {
  return one === null || other === null ? null : other - one;
}

type Figures = ReturnType<typeof figuresOf>;

function figuresOf({ header, plans }: HeaderAndPlans) {
  const report = matchHeader(header);
  const { tube, primaryCount } = buildFigures(header);
  const pieces = header.primaries.flatMap((primary) => primary.pieces);
  const countOf = (kind: string) => pieces.filter((piece) => piece.kind === kind).length;
  return {
    tube,
    primaryCount,
    targetMm: report.targetMm,
    meanMm: report.meanMm,
    spreadMm: report.spreadMm,
    bends: countOf('bend'),
    pieCuts: countOf('pieCut'),
    straights: countOf('straight'),
    joints: header.primaries.reduce((sum, { pieces: own }) => sum + Math.max(0, own.length - 1), 0),
    sawCuts: sawCuts(header, plans),
    tubeMm: report.primaries.reduce((sum, { lengthMm }) => sum + lengthMm, 0),
  };
}

/** Cuts of the saw that freed a piece of this header; null where no plan was carried out for it. */
function sawCuts(header: Header, plans: readonly KeptPlan[]): number | null {
  if (plans.length === 0) return null;
  return plans.reduce((sum, plan) => sum + sawCutsOfPlan(header, plan), 0);
}

function sawCutsOfPlan(header: Header, { pieces, problem, plan }: KeptPlan): number {
  const wanted = header.primaries.flatMap((primary) => primary.pieces);
  // By its own name, or, of a header that came from another computer and has another id since, by the piece and the header's name.
  const names = new Set(wanted.map((piece) => cutPieceId(header, piece)));
  const pieceIds = new Set(wanted.map(({ id }) => id));
  const isOwn = ({ id, piece, headerName }: PlacedPiece) =>
    names.has(id) || (pieceIds.has(piece.id) && (headerName === null || headerName === header.name));
  const own = new Set(pieces.filter(isOwn).map(({ id }) => id));
  const steps = cutList(problem, plan).flatMap((item) => item.steps);
  return steps.filter(
    ({ saw, gives }) =>
      saw !== null && gives.some((gift) => gift.kind === 'pieces' && gift.pieceIds.some((id) => own.has(id))),
  ).length;
}

interface Measured {
  readonly name: string;
  readonly lengthMm: number;
  readonly builtMm: number | null;
}

function measuredPrimaries(header: Header): readonly Measured[] {
  const { primaries } = matchHeader(header);
  return header.primaries.map((primary: Primary, index) => ({
    name: primary.name,
    lengthMm: primaries[index]?.lengthMm ?? 0,
    builtMm: asBuilt(header, primary).centreline?.lengthMm ?? null,
  }));
}

function nameOf({ name }: Measured): string {
  return name.trim().toLowerCase();
}

function comparedPrimaries(one: Header, other: Header): readonly ComparedPrimary[] {
  const firsts = measuredPrimaries(one);
  const seconds = measuredPrimaries(other);
  const named = Map.groupBy(seconds, nameOf);
  // Of several that are called alike each is paired with one.
  const alike = firsts.map((first) => named.get(nameOf(first))?.shift() ?? null);
  const rest = seconds.filter((primary) => !alike.includes(primary));
  const pairs = firsts.map((first, place): readonly [Measured | null, Measured | null] => [
    first,
    alike[place] ?? rest.shift() ?? null,
  ]);
  return [...pairs, ...rest.map((second) => [null, second] as const)].map(([first, second]) => compared(first, second));
}

function compared(first: Measured | null, second: Measured | null): ComparedPrimary {
  const lengthsMm: Both<number | null> = [first?.lengthMm ?? null, second?.lengthMm ?? null];
  const builtMm: Both<number | null> = [first?.builtMm ?? null, second?.builtMm ?? null];
  return {
    names: [first?.name ?? null, second?.name ?? null],
    lengthsMm,
    byMm: between(lengthsMm),
    builtMm,
    builtByMm: between(builtMm),
  };
}
