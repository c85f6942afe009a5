/** The cheapest one- or two-change move by brute force: every pair of changes, from a grid of starts, refined by an independent solver. */

import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import type { Header, Piece, Primary } from '../../core/header/header.ts';
import { matchHeader } from '../../core/length/match-header.ts';
import { closureOf, isClosed } from '../../core/path/ends/closure.ts';
import { closureLimits, findInlet, inletFrame } from '../../core/path/ends/inlet-pose.ts';
import { tracePrimary } from '../../core/path/trace-primary.ts';
import { dot } from '../../core/path/vector.ts';
import { millimetres, mmOf } from '../../core/units/length.ts';
import { type Act, jointsByHand } from '../core/moves/joints-by-hand.ts';
import { foundValue } from '../core/path/made-primaries.ts';

export interface BruteMove {
  readonly joints: number;
  readonly cuts: number;
  readonly changes: readonly string[];
}

interface Knob {
  readonly name: string;
  readonly at: number;
  readonly kind: 'length' | 'clocking' | 'angle';
  /** Starting values, mm or degrees. */
  readonly starts: readonly number[];
}

/** Every piece must be tacked. Null: no pair of changes works. */
export function bruteForceMove(header: Header, primaryId: string): BruteMove | null {
  const primary = header.primaries.find(({ id }) => id === primaryId);
  if (primary === undefined) return null;
  const knobs = primary.pieces.flatMap((piece, at): readonly Knob[] =>
    piece.kind === 'straight'
      ? [{ name: `length ${at}`, at, kind: 'length', starts: [0] }]
      : [
          { name: `clocking ${at}`, at, kind: 'clocking', starts: [0, 60, 120, 180, -120, -60] },
          { name: `angle ${at}`, at, kind: 'angle', starts: [0, -20] },
        ],
  );
  const sets = [
    ...knobs.map((knob) => [knob]),
    ...knobs.flatMap((knob, i) => knobs.slice(i + 1).map((two) => [knob, two])),
  ];
  const priced = sets.map((set) => ({ set, ...priceOf(primary, set) }));
  priced.sort((a, b) => a.joints - b.joints || a.cuts - b.cuts);
  let best: BruteMove | null = null;
  for (const { set, joints, cuts } of priced) {
    if (best !== null && (best.joints - joints || best.cuts - cuts) <= 0) break;
    for (const values of solutions(header, primary, set)) {
      const acts = set.map(({ at, kind }, i): Act => {
        if (kind === 'clocking') return { kind: 'reclocked', at };
        return { kind: (values[i] as number) > 0 ? 'replaced' : 'shorter', at };
      });
      const price = priceOfActs(primary.pieces, acts);
      if (best === null || (price.joints - best.joints || price.cuts - best.cuts) < 0) {
        best = { ...price, changes: set.map(({ name }) => name) };
      }
    }
  }
  return best;
}

/** The least that a set can cost, everything cut being shortened. */
function priceOf({ pieces }: Primary, set: readonly Knob[]): { readonly joints: number; readonly cuts: number } {
  return priceOfActs(
    pieces,
    set.map(({ at, kind }): Act => ({ kind: kind === 'clocking' ? 'reclocked' : 'shorter', at })),
  );
}

function priceOfActs(pieces: readonly Piece[], acts: readonly Act[]) {
  return { joints: jointsByHand(pieces, acts), cuts: acts.filter(({ kind }) => kind !== 'reclocked').length };
}

function changedPrimary(primary: Primary, set: readonly Knob[], values: readonly number[]): Primary | null {
  const pieces: Piece[] = [...primary.pieces];
  for (const [i, { at, kind }] of set.entries()) {
    const piece = pieces[at] as Piece;
    const by = values[i] as number;
    if (piece.kind === 'straight') {
      const mm = mmOf(piece.length) + by;
      if (!(mm >= 0)) return null;
      pieces[at] = { ...piece, length: millimetres(mm) };
    } else if (kind === 'clocking') pieces[at] = { ...piece, clockingDeg: (piece.clockingDeg ?? 0) + by };
    else if (piece.angleDeg + by > 0.5 && piece.angleDeg + by <= 360)
      pieces[at] = { ...piece, angleDeg: piece.angleDeg + by };
    else return null;
  }
  return { ...primary, pieces };
}

/** Two of the gap, what slip leaves of the third, two of the tilt, and length outside the band; in tolerances. */
function residuals(header: Header, primary: Primary): readonly number[] {
  const inlet = findInlet(header, primary.inletId ?? '');
  if (inlet === null) throw new Error('An inlet is needed');
  const wanted = foundValue(inletFrame(header, inlet.id));
  const limits = closureLimits(header, inlet);
  const { end } = foundValue(tracePrimary(primary, primary.port));
  const { gap, alongMm } = closureOf(end, wanted);
  const across = (v: { readonly x: number; readonly y: number; readonly z: number }) => {
    const { tangent: t, normal: n } = wanted;
    const b = { x: t.y * n.z - t.z * n.y, y: t.z * n.x - t.x * n.z, z: t.x * n.y - t.y * n.x };
    return [dot(v, n), dot(v, b)] as const;
  };
  const [one, two] = across(gap);
  const [leanOne, leanTwo] = across(end.tangent);
  const match = matchHeader({
    ...header,
    primaries: header.primaries.map((other) => (other.id === primary.id ? primary : other)),
  });
  const own = match.primaries.find(({ primaryId }) => primaryId === primary.id);
  const lengthMm = own?.lengthMm ?? 0;
  const beyond = (value: number, low: number, high: number) => Math.min(0, value - low) + Math.max(0, value - high);
  const tiltRad = (limits.tiltDeg * Math.PI) / 180;
  return [
    one / limits.gapMm,
    two / limits.gapMm,
    beyond(alongMm, -limits.deeperMm, limits.shallowerMm) / limits.gapMm,
    leanOne / tiltRad,
    leanTwo / tiltRad,
    beyond(lengthMm, match.lowMm ?? 0, match.highMm ?? 0) / limits.gapMm,
  ];
}

const FAR = [1e4, 1e4, 1e4, 1e4, 1e4, 1e4];

function solutions(header: Header, primary: Primary, set: readonly Knob[]): readonly (readonly number[])[] {
  const [first, second] = set;
  const starts = (first?.starts ?? []).flatMap((one) =>
    second === undefined ? [[one]] : second.starts.map((two) => [one, two]),
  );
  return starts
    .map((start) => refined(header, primary, { set, start }))
    .filter((values) => isGood(header, primary, { set, values }));
}

function refined(
  header: Header,
  primary: Primary,
  { set, start }: { readonly set: readonly Knob[]; readonly start: readonly number[] },
): readonly number[] {
  const rows = [0, 1, 2, 3, 4, 5];
  const model = (values: readonly number[]) => {
    const changed = changedPrimary(primary, set, values);
    const left = changed === null ? FAR : residuals(header, changed);
    return (row: number) => left[row] as number;
  };
  const fit = levenbergMarquardt({ x: rows, y: rows.map(() => 0) }, model, {
    initialValues: [...start],
    damping: 1e-2,
    gradientDifference: 1e-4,
    maxIterations: 40,
    errorTolerance: 1e-4,
    centralDifference: true,
  });
  return fit.parameterValues;
}

function isGood(
  header: Header,
  primary: Primary,
  { set, values }: { readonly set: readonly Knob[]; readonly values: readonly number[] },
): boolean {
  if (!values.every(Number.isFinite)) return false;
  const changed = changedPrimary(primary, set, values);
  if (changed === null || !isWorkable(header, primary, changed)) return false;
  const inlet = findInlet(header, primary.inletId ?? '');
  if (inlet === null) return false;
  const { end } = foundValue(tracePrimary(changed, changed.port));
  const isShut = isClosed(closureOf(end, foundValue(inletFrame(header, inlet.id))), closureLimits(header, inlet));
  const after = matchHeader({ ...header, primaries: [changed] });
  return isShut && after.primaries[0]?.side === 'inBand';
}

/** Straights not too short; bends only cut down, as without a shelf. */
function isWorkable(header: Header, before: Primary, after: Primary): boolean {
  return after.pieces.every((piece, at) => {
    const was = before.pieces[at] as Piece;
    if (piece.kind === 'straight') {
      return (
        was.kind === 'straight' &&
        (piece.length.value === was.length.value || mmOf(piece.length) >= mmOf(header.settings.shortestStraight))
      );
    }
    return was.kind !== 'straight' && piece.angleDeg <= was.angleDeg && piece.angleDeg >= 2;
  });
}
