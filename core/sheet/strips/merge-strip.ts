/** The paper strip of a merge: one for each of its tubes, all alike. */

import { type Result, success } from '../../result.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatLength } from '../../units/format-length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import type { StripProblem } from '../sheet-problem.ts';
import { checkMerge, circleRoundTubesMm, holeBetweenTubesMm2, type Merge, mergeCutDeg, mergeMm } from './merge.ts';
import { LABEL_MM } from './quarter-lines.ts';
import { sleeveOf } from './sleeve.ts';
import { at, type Strip } from './strip.ts';

/** The upper edge is the saw line, down the flow; the seam is on the tube's outer side. */
export function mergeStrip(merge: Merge, style: LengthStyle): Result<Strip, StripProblem> {
  const checked = checkMerge(merge);
  if (!checked.ok) return checked;
  const { tubes, odMm, leanDeg } = merge;
  const { widthMm, heightMm, lines } = sleeveOf(odMm, (turnRad) => mergeMm(merge, turnRad));
  return success({
    name: `Merge of ${tubes}, leaning ${formatAngle(leanDeg)}`,
    facts: mergeFacts(merge, style),
    widthMm,
    heightMm,
    lines,
    labels: [
      { at: at(1.5, heightMm - LABEL_MM), text: 'outer side', isUpright: false },
      { at: at(1.5, heightMm - 2 * LABEL_MM), text: 'outlet: up', isUpright: false },
      { at: at(widthMm / 2 + 1.5, heightMm - LABEL_MM), text: 'inner side', isUpright: false },
    ],
  });
}

function mergeFacts(merge: Merge, style: LengthStyle): readonly string[] {
  const length = (mm: number) => formatLength(mm, style);
  const { tubes, odMm, leanDeg, outletOdMm } = merge;
  const bundle = `${tubes} touching tubes fill a circle of ${length(circleRoundTubesMm(tubes, odMm))}`;
  const hole = tubes === 2 ? '' : `; the hole between them is ${area(holeBetweenTubesMm2(tubes, odMm), style)}`;
  return [
    `${tubes} tubes of ${length(odMm)} OD, each leaning ${formatAngle(leanDeg)} to the collector's axis, into an outlet of ${length(outletOdMm)} OD. Cut ${tubes} alike.`,
    `Each meets its neighbour at ${formatAngle(mergeCutDeg(tubes, leanDeg))} to its own axis. ${bundle}${hole}.`,
    'Wrap it round the tube printed side out, its seam away from the other tubes, and saw along the upper edge.',
  ];
}

function area(mm2: number, style: LengthStyle): string {
  return style.kind === 'mm' ? `${mm2.toFixed(0)} mm²` : `${(mm2 / 645.16).toFixed(2)} in²`;
}
