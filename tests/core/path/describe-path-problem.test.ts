/** Every problem of paths and tables reads as one sentence that says what would do. */

import { expect, test } from 'vitest';
import { describeProblem } from '../../../core/describe-problem.ts';
import type { PathProblem, TableProblem } from '../../../core/path/path-problem.ts';

const piece = { primaryId: 'p', primaryName: '3', pieceId: 'q', pieceNumber: 4 };

const SENTENCES: readonly (readonly [PathProblem | TableProblem, string])[] = [
  [{ kind: 'poseNotFinite', path: ['primaries', 'x', 'port', 'at'] }, 'coordinate that is not a number'],
  [{ kind: 'poseZeroDirection', path: ['primaries', 'x', 'port', 'direction'] }, 'direction of the port'],
  [{ kind: 'poseUpParallel', path: ['inlets', 'i', 'place', 'pose', 'up'] }, 'choose an up across the tube'],
  [{ kind: 'portMissing', primaryId: 'p', primaryName: '3' }, 'Primary 3 has no port yet'],
  [{ kind: 'pathUnknown', ...piece }, 'Piece 4 of primary 3 has no clocking'],
  [{ kind: 'tooFewPies', pies: 1, angleDeg: 180, ...piece }, 'turns 180° in 1 cut,'],
  [{ kind: 'impossiblePiece', field: 'clr', ...piece }, 'has a CLR that no piece can have'],
  [{ kind: 'noSuchPrimary', primaryId: 'p' }, 'not in this header'],
  [{ kind: 'noSuchInlet', inletId: 'i' }, 'not in this header'],
  [{ kind: 'inletNotAssigned', primaryId: 'p', primaryName: '3' }, 'no collector inlet'],
  [{ kind: 'inletNotMeasured', inletId: 'i', inletName: 'left' }, 'Inlet left has no place yet'],
  [{ kind: 'patternCount', pattern: 'sideBySide', count: 9 }, 'no side by side pattern of 9'],
  [{ kind: 'tableTooShort', table: 'xyz', rows: 1 }, 'at least two points'],
  [{ kind: 'tableTooShort', table: 'lra', rows: 0 }, 'no rows'],
  [{ kind: 'tableTooLong', table: 'lra', limit: 500 }, 'more than 500 rows'],
  [{ kind: 'tableColumnMissing', table: 'lra', column: 'clr' }, 'length_mm, rotation_deg, angle_deg and clr_mm'],
  [
    { kind: 'tableCell', table: 'lra', row: 2, column: 'angle', found: 'x', expected: 'angle' },
    'Row 2 has "x" for angle',
  ],
  [{ kind: 'tableCell', table: 'lra', row: 2, column: 'angle', found: '', expected: 'number' }, 'Row 2 has empty'],
  [{ kind: 'samePoint', point: 3 }, 'Point 3 is the same place'],
  [{ kind: 'turnsBack', point: 3 }, 'two bends of 90°'],
  [{ kind: 'legTooShort', leg: 1, legMm: 70, neededMm: 80 }, 'Leg 1 is 70.00'],
  [{ kind: 'radiusMissing', point: 2 }, 'Point 2 is a bend but has no CLR'],
];

test.each(SENTENCES.map(([problem, words]) => [problem.kind, words, problem] as const))(
  '%s says "%s"',
  (_kind, words, problem) => {
    const sentence = describeProblem(problem);
    expect(sentence).toContain(words);
    expect(sentence).toMatch(/^[A-Z].*\.$/);
  },
);
