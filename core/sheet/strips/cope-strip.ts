/** The paper strip of a cope: wrapped round the branch, its upper edge is the line to saw. */

import { type Result, success } from '../../result.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatLength } from '../../units/format-length.ts';
import { finerStyle, type LengthStyle } from '../../units/length-style.ts';
import type { StripProblem } from '../sheet-problem.ts';
import { type CopeJoint, checkCope, copeMm } from './cope.ts';
import { LABEL_MM } from './quarter-lines.ts';
import { sleeveOf } from './sleeve.ts';
import { at, type Strip, type StripLabel } from './strip.ts';

/**
 * The upper edge is the saw line. Up to 90 degrees the left and right edges meet on the obtuse side, beyond 90 on the acute side.
 * Printed side out, the upper edge is towards the run.
 */
export function copeStrip(joint: CopeJoint, style: LengthStyle): Result<Strip, StripProblem> {
  const checked = checkCope(joint);
  if (!checked.ok) return checked;
  const { depthMm, nearestMm, ...sleeve } = sleeveOf(joint.branchOdMm, (turnRad) => copeMm(joint, turnRad));
  const { widthMm, heightMm } = sleeve;
  const [edgeSide, middleSide] = sidesOf(joint.angleDeg);
  return success({
    name: `Cope, ${formatAngle(joint.angleDeg)}`,
    facts: copeFacts(joint, { depthMm, nearestMm }, style),
    ...sleeve,
    labels: [
      { at: at(1.5, heightMm - LABEL_MM), text: edgeSide, isUpright: false },
      { at: at(widthMm / 2 + 1.5, heightMm - LABEL_MM), text: middleSide, isUpright: false },
      { at: at(1.5, heightMm - 2 * LABEL_MM), text: 'run: up', isUpright: false },
      ...offsetLabel(joint.offsetMm, widthMm, heightMm),
    ],
  });
}

/** What stands at the strip's edge and at its middle; a square branch has neither an obtuse nor an acute side. */
function sidesOf(angleDeg: number): readonly [edge: string, middle: string] {
  if (angleDeg === 90) return ['along the run', 'along the run'];
  return angleDeg < 90 ? ['obtuse side', 'acute side'] : ['acute side', 'obtuse side'];
}

/** On the side to which the branch is moved. */
function offsetLabel(offsetMm: number, roundMm: number, heightMm: number): readonly StripLabel[] {
  if (offsetMm === 0) return [];
  const x = offsetMm > 0 ? roundMm / 4 : (3 * roundMm) / 4;
  return [{ at: at(x + 1.5, heightMm - LABEL_MM), text: 'offset side', isUpright: false }];
}

function copeFacts(
  joint: CopeJoint,
  { depthMm, nearestMm }: { readonly depthMm: number; readonly nearestMm: number },
  style: LengthStyle,
): readonly string[] {
  const length = (mm: number) => formatLength(mm, style);
  const { runOdMm, branchOdMm, branchWallMm, angleDeg, offsetMm, cutTo } = joint;
  const offset = offsetMm === 0 ? 'on the middle' : `${length(Math.abs(offsetMm))} off the middle`;
  return [
    `Branch ${length(branchOdMm)} OD, ${formatLength(branchWallMm, finerStyle(style))} wall, on a run of ${length(runOdMm)} OD at ${formatAngle(angleDeg)}, ${offset}, cut to the branch's ${cutTo}.`,
    `Depth of the cut ${length(depthMm)}; its nearest point is ${length(nearestMm)} from the axis of the run, along the branch.`,
    'Wrap it round the branch printed side out, edge to edge, and saw along the upper edge.',
  ];
}
