/** Gaps in words: between what they are, and on which pieces. */

import { assertNever, type Header, type HeaderGap } from '../../core/index.ts';
import { primaryTitle } from '../ui/words/verdict-words.ts';

export interface GapWords {
  readonly key: string;
  /** "Primary 2 and Primary 3". */
  readonly between: string;
  /** "pieces 3 and 5". */
  readonly where: string;
}

export function gapWords(gap: HeaderGap, header: Header): GapWords {
  const title = (primaryId: string) =>
    primaryTitle(header.primaries.find(({ id }) => id === primaryId)?.name ?? primaryId);
  switch (gap.kind) {
    case 'pair': {
      const { pieceIndexA, pieceIndexB } = gap.clearance;
      return {
        key: `${gap.primaryIdA} ${gap.primaryIdB}${gap.isAtCollector ? ' collector' : ''}`,
        between: `${title(gap.primaryIdA)} and ${title(gap.primaryIdB)}`,
        where: `pieces ${pieceIndexA + 1} and ${pieceIndexB + 1}${gap.isAtCollector ? ', at the collector' : ''}`,
      };
    }
    case 'self': {
      const { pieceIndexA, pieceIndexB } = gap.clearance;
      return {
        key: `self ${gap.primaryId}`,
        between: `${title(gap.primaryId)} and itself`,
        where: `pieces ${pieceIndexA + 1} and ${pieceIndexB + 1}`,
      };
    }
    case 'obstacle': {
      const obstacle = header.obstacles.find(({ id }) => id === gap.obstacleId);
      return {
        key: `${gap.primaryId} ${gap.obstacleId}`,
        between: `${title(gap.primaryId)} and ${obstacle?.name ?? 'an obstacle'}`,
        where: `piece ${gap.clearance.pieceIndex + 1}`,
      };
    }
    default:
      return assertNever(gap);
  }
}

/** The gap against the minimum clearance. */
export function gapVerdict(gap: HeaderGap): string {
  if (gap.kind === 'pair' && gap.isAtCollector) return '○ meet here, not judged';
  return gap.isTight ? '▲ tight' : '● OK';
}
