/** The cheapest one- or two-change move by brute force: every pair of changes, from a grid of starts, refined by an independent solver. */

import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import type { Header, Piece, Primary } from '../../core/header/header.ts';
import { matchHeader } from '../../core/length/match-header.ts';
import { closureOf, isClosed } from '../../core/path/ends/closure.ts';
import { closureLimits, findInlet, inletFrame } from '../../core/path/ends/inlet-pose.ts';
import { tracePrimary } from '../../core/path/trace-primary.ts';
import { dot } from '../../core/path/vector.ts';
import { millimetres, mmOf } from '../../core/units/length.ts';
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
  for (const { set, joints, cuts } of priced) {
    if (isSolvable(header, primary, set)) return { joints, cuts, changes: set.map(({ name }) => name) };
  }
  return null;
}

/** Counted from the definitions: both ends of what is cut; any joint since the last bend for what is turned. */
function priceOf({ pieces }: Primary, set: readonly Knob[]): { readonly joints: number; readonly cuts: number } {
  const freed = new Set<number>();
  const cut = set.filter(({ kind }) => kind !== 'clocking');
  for (const { at } of cut) {
    freed.add(at);
    if (at + 1 < pieces.length) freed.add(at + 1);
  }
  for (const { at, kind } of set) {
    if (kind !== 'clocking') continue;
    let first = at;
    while (first > 0 && pieces[first - 1]?.kind === 'straight') first -= 1;
    const candidates = Array.from({ length: at - first + 1 }, (_, step) => first + step);
    if (!candidates.some((joint) => freed.has(joint))) freed.add(at);
  }
  return { joints: freed.size, cuts: cut.length };
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

function isSolvable(header: Header, primary: Primary, set: readonly Knob[]): boolean {
  const [first, second] = set;
  for (const one of first?.starts ?? []) {
    for (const two of second?.starts ?? [0]) {
      const start = second === undefined ? [one] : [one, two];
      if (isGood(header, primary, { set, values: refined(header, primary, { set, start }) })) return true;
    }
  }
  return false;
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
  return isShut && after.primaries[0]?.verdict === 'inBand';
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
