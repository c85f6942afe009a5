/** How a primary stands, in word and mark, and the sentence that sums up the whole header. */

import {
  assertNever,
  type Building,
  bandWords,
  formatLength,
  type LengthStyle,
  type MatchReport,
  primaryTitle,
  rowWords,
  signedLength,
  verdictMark,
  verdictWords,
} from '../../../core/index.ts';
import { countOf } from './spoken.ts';

export { bandWords, primaryTitle, rowWords, signedLength, verdictMark, verdictWords };

/** Why a primary is not judged: `still being built: end 3 5/8" from its inlet`. */
export function buildingWords(building: Building, style: LengthStyle): string {
  switch (building.kind) {
    case 'openEnd':
      return `still being built: end ${formatLength(building.missMm, style)} from its inlet`;
    case 'farShort':
      return 'still being built: more than a tenth to go';
    case 'planned':
      return `still being built: ${countOf(building.pieces, 'piece')} planned`;
    default:
      return assertNever(building);
  }
}

/** ` Spread 1/4" about a mean of 35 1/8".`; empty for fewer than two that count. */
function spreadWords({ spreadMm, meanMm }: MatchReport, style: LengthStyle): string {
  if (spreadMm === null || meanMm === null) return '';
  return ` Spread ${formatLength(spreadMm, style)} about a mean of ${formatLength(meanMm, style)}.`;
}

/** The board in a sentence or two, made from its figures. */
export function captionSentence(report: MatchReport, band: string, style: LengthStyle): string {
  const judged = report.primaries.filter(({ verdict }) => verdict !== null);
  const worst = judged.find(({ primaryId }) => primaryId === report.worstPrimaryId);
  if (worst === undefined) return noneJudged(report);
  const built = report.primaries.filter(({ building }) => building !== null).length;
  const rest = `${built === 0 ? '' : ` ${built} still being built.`}${spreadWords(report, style)}`;
  const within = judged.filter(({ verdict }) => verdict === 'inBand').length;
  if (within === judged.length) {
    const all = judged.length === 1 ? `${primaryTitle(worst.name)} is` : `All ${judged.length} judged are`;
    return `${all} within ${band}.${rest}`;
  }
  const rank = judged.length === 1 ? '' : `, the worst of ${judged.length}`;
  return `${primaryTitle(worst.name)} is ${verdictWords(worst, style)}${rank}; ${within} of ${judged.length} within ${band}.${rest}`;
}

function noneJudged({ primaries, targetMm, targetPrimaryId, isTargetBuilding }: MatchReport): string {
  if (targetMm === null) return 'No primary has a length to compare yet.';
  const setter = primaries.find(({ primaryId }) => primaryId === targetPrimaryId);
  const built = primaries.filter(({ standing }) => standing === 'building').length;
  if (setter !== undefined && isTargetBuilding) {
    return `${primaryTitle(setter.name)} sets the length and is still being built, so none is judged yet.`;
  }
  if (setter !== undefined) {
    const others = built === 0 ? 'there is no other to compare yet' : `${built} still being built`;
    return `${primaryTitle(setter.name)} sets the length; ${others}.`;
  }
  return built === 0 ? 'No primary has pieces yet.' : `${built} still being built, so none is judged yet.`;
}
