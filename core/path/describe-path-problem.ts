/** Says in one plain sentence why a path, a pose or a bending table could not be worked out, and what would do. */

import { placeWords } from '../header/describe-path.ts';
import type { ProblemPath } from '../header/header-problem.ts';
import { assertNever } from '../result.ts';
import { formatLength } from '../units/format-length.ts';
import type { PathOrTableProblem, PieceRef, TableProblem } from './path-problem.ts';

/** Every kind of problem that this file words; a kind that is missing here does not compile. */
const KINDS: Readonly<Record<PathOrTableProblem['kind'], true>> = {
  poseNotFinite: true,
  poseZeroDirection: true,
  poseUpParallel: true,
  portMissing: true,
  pathUnknown: true,
  tooFewPies: true,
  impossiblePiece: true,
  noSuchPrimary: true,
  noSuchInlet: true,
  inletNotAssigned: true,
  inletNotMeasured: true,
  patternCount: true,
  tableTooShort: true,
  tableTooLong: true,
  tableColumnMissing: true,
  tableCell: true,
  samePoint: true,
  turnsBack: true,
  legTooShort: true,
  radiusMissing: true,
};

export function isPathProblem(problem: { readonly kind: string }): problem is PathOrTableProblem {
  return Object.hasOwn(KINDS, problem.kind);
}

export function describePathProblem(problem: PathOrTableProblem): string {
  switch (problem.kind) {
    case 'poseNotFinite':
      return `${poseField(problem.path)} has a coordinate that is not a number: type it again.`;
    case 'poseZeroDirection':
      return `${poseField(problem.path)} is 0, 0, 0, which points nowhere: type which way it points, as in 0, 1, 0 for outboard.`;
    case 'poseUpParallel':
      return `${poseField(problem.path)} runs along the line of travel, so clocking has nothing to be measured from: choose an up across the tube.`;
    case 'portMissing':
      return `Primary ${problem.primaryName} has no port yet, so nothing says where it lies: enter the port's place and direction. Lengths work without it.`;
    case 'pathUnknown':
      return `${piece(problem)} has no clocking, so the way of the tube is not known from there on: enter its clocking. Lengths work without it.`;
    case 'tooFewPies':
      return `${piece(problem)} turns ${problem.angleDeg}° in ${problem.pies} ${problem.pies === 1 ? 'cut' : 'cuts'}, and no cut can turn a tube by 180° or more: give it more pies.`;
    case 'impossiblePiece':
      return `${piece(problem)} has a ${FIELD_WORDS.get(problem.field) ?? problem.field} that no piece can have: type it again.`;
    case 'noSuchPrimary':
      return 'The primary named is not in this header: choose one that is.';
    case 'noSuchInlet':
      return 'The inlet named is not in this header: choose one that is, or none.';
    case 'inletNotAssigned':
      return `Primary ${problem.primaryName} has no collector inlet to end in: choose one to see how far it misses.`;
    case 'inletNotMeasured':
      return `Inlet ${problem.inletName} has no place yet: enter its place and direction, or say which primary ends there.`;
    case 'patternCount':
      return `There is no ${PATTERN_WORDS.get(problem.pattern) ?? problem.pattern} pattern of ${problem.count} inlets: side by side takes 2 to 4, a triangle 3, a square 4.`;
    default:
      return describeTableProblem(problem);
  }
}

const FIELD_WORDS: ReadonlyMap<string, string> = new Map([
  ['length', 'length'],
  ['clr', 'CLR'],
  ['angleDeg', 'angle'],
  ['clockingDeg', 'clocking'],
  ['pies', 'number of pies'],
]);

const PATTERN_WORDS: ReadonlyMap<string, string> = new Map([
  ['sideBySide', 'side by side'],
  ['triangle', 'triangle'],
  ['square', 'square'],
]);

function piece({ pieceNumber, primaryName }: PieceRef): string {
  return `Piece ${pieceNumber} of primary ${primaryName}`;
}

/** Of the path only the fields are said: which primary or inlet it is stands beside them on screen. */
function poseField(path: ProblemPath): string {
  const words = placeWords(path.filter((step) => POSE_FIELDS.has(String(step))));
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const POSE_FIELDS: ReadonlySet<string> = new Set([
  'port',
  'first',
  'centre',
  'plane',
  'at',
  'direction',
  'up',
  'along',
  'normal',
]);

function describeTableProblem(problem: TableProblem): string {
  switch (problem.kind) {
    case 'tableTooShort':
      return problem.table === 'xyz'
        ? 'An XYZ table needs at least two points, the start and the end of the tube: add the points that are missing.'
        : 'The LRA table has no rows below its heading: add one row a bend, and one for the last straight.';
    case 'tableTooLong':
      return `The table has more than ${problem.limit} rows, the most that the pieces of a primary make: check that it is the right file.`;
    case 'tableColumnMissing':
      return `The table has no column for ${problem.column}: its first row must name ${COLUMN_WORDS[problem.table]} (or _in in place of _mm).`;
    case 'tableCell':
      return describeCell(problem);
    case 'samePoint':
      return `Point ${problem.point} is the same place as the one before it: take one of them out.`;
    case 'turnsBack':
      return `At point ${problem.point} the tube would run straight back on itself; a bend of 180° has no intersection point: list it as two bends of 90°.`;
    case 'legTooShort':
      return `Leg ${problem.leg} is ${bothUnits(problem.legMm)} long, but the bends at its ends take up ${bothUnits(problem.neededMm)}: check the points and the CLRs.`;
    case 'radiusMissing':
      return `Point ${problem.point} is a bend but has no CLR above zero: enter one.`;
    default:
      return assertNever(problem);
  }
}

const COLUMN_WORDS = {
  lra: 'length_mm, rotation_deg, angle_deg and clr_mm',
  xyz: 'x_mm, y_mm, z_mm and clr_mm',
} as const;

const EXPECTED_WORDS = {
  number: 'a number',
  coordinate: 'a number of at most a million either way',
  zeroOrMore: 'a number that is zero or more, and at most a million,',
  aboveZero: 'a number above zero, and at most a million,',
  angle: 'an angle above 0 and up to 360',
} as const;

function describeCell(problem: Extract<TableProblem, { kind: 'tableCell' }>): string {
  const found = problem.found === '' ? 'empty' : `"${problem.found}"`;
  return `Row ${problem.row} has ${found} for ${problem.column}, where ${EXPECTED_WORDS[problem.expected]} is needed: correct it and read the table again.`;
}

/** In both units, since a problem does not know the display. */
function bothUnits(mm: number): string {
  return `${formatLength(mm, { kind: 'mm', places: 2 })} (${formatLength(mm, { kind: 'decimalInch', places: 3 })})`;
}
