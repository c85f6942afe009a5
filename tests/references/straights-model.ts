/** The straights-only problem as a mixed-integer model in LP text, for an independent solver: written from the definitions, sharing no search code. */

import type { Header, Piece, Primary } from '../../core/header/header.ts';
import { matchHeader } from '../../core/length/match-header.ts';
import { closureLimits, findInlet, inletFrame } from '../../core/path/ends/inlet-pose.ts';
import { tracePrimary } from '../../core/path/trace-primary.ts';
import type { Vector } from '../../core/path/vector.ts';
import { mmOf } from '../../core/units/length.ts';
import { foundValue } from '../core/path/made-primaries.ts';

/** Nothing is lengthened by more than this, mm; far beyond any answer. */
const MOST_MM = 1000;

/** What is minimised, in this order. */
export type Goal = 'joints' | 'cuts' | 'tube';

export interface StraightsModel {
  /** LP text with a goal, and earlier goals held at what they came to. */
  readonly text: (goal: Goal, held: Partial<Record<Goal, number>>) => string;
  /** All goals in one sum, joints counting a million times and cuts a thousand times a millimetre. */
  readonly weighted: string;
  /** Sums of tube and of the weighed distance off target, from a solution's values. */
  readonly tubeOf: (value: (name: string) => number) => number;
}

interface Row {
  readonly terms: readonly Term[];
  readonly sense: '<=' | '>=' | '=';
  readonly right: number;
}

type Term = readonly [factor: number, name: string];

interface Parts {
  readonly rows: Row[];
  readonly bounds: string[];
  readonly binaries: string[];
  /** Gain of each changeable thing, and the direction that it moves the end in. */
  readonly gains: { readonly terms: readonly Term[]; readonly direction: Vector }[];
  readonly joints: Set<number>;
  /** Joints to be made beyond those opened. */
  readonly more: Term[];
  readonly cuts: Term[];
  readonly tube: Term[];
}

/** What a millimetre of gap and a millimetre off target count as in millimetres of tube; zeros ask for the least tube alone. */
export interface ModelWeights {
  readonly gap: number;
  readonly offTarget: number;
}

const USUAL: ModelWeights = { gap: 10, offTarget: 4 };

export function straightsModel(header: Header, primary: Primary, weights = USUAL): StraightsModel {
  const parts: Parts = {
    rows: [],
    bounds: [],
    binaries: [],
    gains: [],
    joints: new Set(),
    more: [],
    cuts: [],
    tube: [],
  };
  const path = foundValue(tracePrimary(primary, primary.port));
  const shortestMm = mmOf(header.settings.shortestStraight);
  for (const [index, piece] of primary.pieces.entries()) {
    const direction = path.joints[index]?.tangent as Vector;
    if (piece.kind === 'straight') addStraight(parts, primary, { index, direction, shortestMm });
  }
  for (let joint = 0; joint <= primary.pieces.length; joint += 1) {
    const isBare = [joint - 1, joint].every((at) => {
      const piece = primary.pieces[at];
      return piece?.kind !== 'straight' || isHeld(piece);
    });
    if (isBare)
      addLetIn(parts, primary, { index: joint, direction: path.joints[joint]?.tangent as Vector, shortestMm });
  }
  addClosure(parts, { header, primary, weights });
  const joints = [...[...parts.joints].map((joint): Term => [1, `y${joint}`]), ...parts.more];
  const goals: Readonly<Record<Goal, readonly Term[]>> = { joints, cuts: parts.cuts, tube: parts.tube };
  return {
    text: (goal, held) => lpText(goals[goal], parts, heldRows(goals, held)),
    weighted: lpText(
      [
        ...joints.map(([factor, name]): Term => [1e6 * factor, name]),
        ...parts.cuts.map(([factor, name]): Term => [1e3 * factor, name]),
        ...parts.tube,
      ],
      parts,
      [],
    ),
    tubeOf: (value) =>
      parts.tube
        .filter(([, name]) => !name.startsWith('g'))
        .reduce((sum, [factor, name]) => sum + factor * value(name), 0),
  };
}

interface Place {
  readonly index: number;
  readonly direction: Vector;
  readonly shortestMm: number;
}

function isHeld(piece: Piece | undefined): boolean {
  return piece === undefined || piece.locked || piece.state === 'welded';
}

/** `s` made shorter, `l` made longer, `z` taken out, `u` longer by, `d` shorter by. */
function addStraight(parts: Parts, primary: Primary, { index, direction, shortestMm }: Place): void {
  const piece = primary.pieces[index];
  if (piece?.kind !== 'straight' || isHeld(piece)) return;
  const lengthMm = mmOf(piece.length);
  const [s, l, z, u, d] = ['s', 'l', 'z', 'u', 'd'].map((letter) => `${letter}${index}`) as [
    string,
    string,
    string,
    string,
    string,
  ];
  parts.binaries.push(s, l, z);
  const row = (sense: Row['sense'], right: number, ...terms: readonly Term[]) =>
    parts.rows.push({ terms, sense, right });
  row('<=', 0, [1, u], [-MOST_MM, l]);
  row('<=', 0, [1, d], [-Math.max(0, lengthMm - shortestMm), s]);
  // A straight that is too short as it is can only be made longer, and then at least workable.
  row('>=', 0, [1, u], [-Math.max(0, shortestMm - lengthMm), l]);
  if (lengthMm <= shortestMm) row('<=', 0, [1, s]);
  row('<=', 1, [1, s], [1, l], [1, z]);
  // Another piece in its place opens both ends; a shorter one needs one end only.
  for (const joint of [index, index + 1])
    openJoint(parts, primary, joint, [
      [1, l],
      [1, z],
    ]);
  openOneOf(parts, primary, [index, index + 1], s);
  // Two joints become one when it is gone.
  if ([index, index + 1].some((joint) => jointOf(primary, joint) !== 'open')) parts.more.push([-1, z]);
  parts.gains.push({
    terms: [
      [1, u],
      [-1, d],
      [-lengthMm, z],
    ],
    direction,
  });
  parts.cuts.push([1, s], [1, l]);
  parts.tube.push([1, u]);
}

/** `c` let in, `x` how long. */
function addLetIn(parts: Parts, primary: Primary, { index, direction, shortestMm }: Place): void {
  if (jointOf(primary, index) === 'welded') return;
  const [c, x] = [`cj${index}`, `x${index}`];
  parts.binaries.push(c);
  parts.rows.push(
    {
      terms: [
        [1, x],
        [-MOST_MM, c],
      ],
      sense: '<=',
      right: 0,
    },
    {
      terms: [
        [1, x],
        [-Math.max(1, shortestMm), c],
      ],
      sense: '>=',
      right: 0,
    },
  );
  openJoint(parts, primary, index, [[1, c]]);
  parts.more.push([1, c]);
  parts.gains.push({ terms: [[1, x]], direction });
  parts.cuts.push([1, c]);
  parts.tube.push([1, x]);
}

function jointOf({ pieces }: Primary, joint: number): 'open' | 'tacked' | 'welded' {
  const after = pieces[joint]?.state;
  const before = joint === 0 ? after : pieces[joint - 1]?.state;
  if (after === undefined || before === undefined) return 'open';
  if (after === 'welded' && before === 'welded') return 'welded';
  const fixed = ['tacked', 'welded'];
  return fixed.includes(after) && fixed.includes(before) ? 'tacked' : 'open';
}

function jointName(parts: Parts, joint: number): string {
  const y = `y${joint}`;
  if (!parts.joints.has(joint)) parts.binaries.push(y);
  parts.joints.add(joint);
  return y;
}

function openJoint(parts: Parts, primary: Primary, joint: number, by: readonly Term[]): void {
  if (jointOf(primary, joint) !== 'tacked') return;
  const y = jointName(parts, joint);
  for (const [factor, name] of by)
    parts.rows.push({
      terms: [
        [1, y],
        [-factor, name],
      ],
      sense: '>=',
      right: 0,
    });
}

/** Nothing where one of them is open already; a weld stays shut. */
function openOneOf(parts: Parts, primary: Primary, joints: readonly number[], by: string): void {
  const states = joints.map((joint) => jointOf(primary, joint));
  if (states.includes('open')) return;
  const tacked = joints.filter((_, i) => states[i] === 'tacked');
  const terms = tacked.map((joint): Term => [1, jointName(parts, joint)]);
  parts.rows.push({ terms: [...terms, [-1, by]], sense: '>=', right: 0 });
}

/** The gap within the cube that fits the closure ball, about the slip range; the length within its band. */
function addClosure(
  parts: Parts,
  { header, primary, weights }: { readonly header: Header; readonly primary: Primary; readonly weights: ModelWeights },
): void {
  const inlet = findInlet(header, primary.inletId ?? '');
  if (inlet === null) throw new Error('The model needs an inlet');
  const frame = foundValue(inletFrame(header, inlet.id));
  const limits = closureLimits(header, inlet);
  const end = foundValue(tracePrimary(primary, primary.port)).end.point;
  const { tangent: t, normal: n } = frame;
  const b: Vector = { x: t.y * n.z - t.z * n.y, y: t.z * n.x - t.x * n.z, z: t.x * n.y - t.y * n.x };
  const gap: Vector = { x: end.x - frame.point.x, y: end.y - frame.point.y, z: end.z - frame.point.z };
  const half = limits.gapMm / Math.sqrt(3);
  const product = (v: Vector, w: Vector) => v.x * w.x + v.y * w.y + v.z * w.z;
  const equals = (axis: Vector, left: readonly Term[]) => {
    const terms = parts.gains.flatMap(({ terms: gain, direction }) =>
      gain.map(([factor, name]): Term => [factor * product(axis, direction), name]),
    );
    parts.rows.push({ terms: [...terms, ...left], sense: '=', right: -product(axis, gap) });
  };
  const missing = (name: string): readonly Term[] => {
    parts.bounds.push(`0 <= gp${name} <= ${half}`, `0 <= gn${name} <= ${half}`);
    parts.tube.push([weights.gap, `gp${name}`], [weights.gap, `gn${name}`]);
    return [
      [-1, `gp${name}`],
      [1, `gn${name}`],
    ];
  };
  equals(n, missing('n'));
  equals(b, missing('b'));
  parts.bounds.push(`${-limits.shallowerMm} <= slip <= ${limits.deeperMm}`);
  equals(t, [[-1, 'slip'], ...missing('t')]);
  const match = matchHeader(header);
  const own = match.primaries.find(({ primaryId }) => primaryId === primary.id);
  const { minus, plus } = header.settings.tolerance;
  parts.bounds.push(`0 <= op <= ${mmOf(plus)}`, `0 <= on <= ${mmOf(minus)}`);
  parts.tube.push([weights.offTarget, 'op'], [weights.offTarget, 'on']);
  parts.rows.push({
    terms: [...parts.gains.flatMap(({ terms }) => terms), [-1, 'op'], [1, 'on']],
    sense: '=',
    right: -(own?.deviationMm ?? Number.NaN),
  });
}

function heldRows(goals: Readonly<Record<Goal, readonly Term[]>>, held: Partial<Record<Goal, number>>): readonly Row[] {
  return (Object.keys(held) as Goal[]).map((goal) => ({
    terms: goals[goal],
    sense: '<=',
    right: (held[goal] ?? 0) + 1e-6,
  }));
}

/** Short lines: the reader of LP text has a limit on them. */
function sumText(terms: readonly Term[]): string {
  if (terms.length === 0) return '0 slip';
  return terms.map(([factor, name]) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`).join('\n ');
}

function lpText(goal: readonly Term[], { rows, bounds, binaries }: Parts, held: readonly Row[]): string {
  const constraints = [...rows, ...held]
    .filter(({ terms }) => terms.length > 0)
    .map(({ terms, sense, right }, index) => ` r${index}: ${sumText(terms)} ${sense} ${right}`);
  return [
    'Minimize',
    ` goal: ${sumText(goal)}`,
    'Subject To',
    ...constraints,
    'Bounds',
    ...bounds.map((bound) => ` ${bound}`),
    'Binary',
    ...binaries.map((name) => ` ${name}`),
    'End',
    '',
  ].join('\n');
}
