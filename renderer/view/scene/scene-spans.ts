/** Lines between two points with a figure: gaps under the wanted one, and ends that miss their inlets. */

import {
  add,
  assertNever,
  closureLimits,
  findInlet,
  formatLength,
  type Header,
  type HeaderGap,
  inletFrame,
  isClosed,
  type LengthStyle,
  primaryClosure,
  scale,
} from '../../../core/index.ts';
import { gapText } from '../../ui/words/gap-text.ts';
import type { SceneSpan } from './scene.ts';

function gapKey(gap: HeaderGap): string {
  switch (gap.kind) {
    case 'pair':
      return `pair ${gap.primaryIdA} ${gap.primaryIdB}`;
    case 'self':
      return `self ${gap.primaryId}`;
    case 'obstacle':
      return `obstacle ${gap.primaryId} ${gap.obstacleId}`;
    default:
      return assertNever(gap);
  }
}

/** A line across every gap given: those under the wanted one, which leaves out where tubes come together at a collector. */
export function gapSpans(gaps: readonly HeaderGap[], header: Header): readonly SceneSpan[] {
  return gaps.map((gap): SceneSpan => {
    const isObstacle = gap.kind === 'obstacle';
    const from = isObstacle ? gap.clearance.centre : gap.clearance.outsideA;
    const to = isObstacle ? gap.clearance.onObstacle : gap.clearance.outsideB;
    const primaryIds = gap.kind === 'pair' ? [gap.primaryIdA, gap.primaryIdB] : [gap.primaryId];
    return {
      key: gapKey(gap),
      kind: 'gap',
      from,
      to,
      text: gapText(gap, header),
      primaryIds,
      rank: gap.clearance.gapMm,
    };
  });
}

/** A line from every end to the inlet that it misses by more than the header accepts. */
export function closureSpans(header: Header, style: LengthStyle): readonly SceneSpan[] {
  return header.primaries.flatMap((primary): readonly SceneSpan[] => {
    const closure = primaryClosure(header, primary);
    const inlet = primary.inletId === null ? null : findInlet(header, primary.inletId);
    const frame = primary.inletId === null ? null : inletFrame(header, primary.inletId);
    if (!closure.ok || inlet === null || frame?.ok !== true) return [];
    if (primary.pieces.length === 0 || isClosed(closure.value, closureLimits(header, inlet))) return [];
    const to = frame.value.point;
    const from = add(to, scale(closure.value.gap, -1));
    const text = `${formatLength(closure.value.gapMm, style)} off`;
    const rank = -closure.value.gapMm;
    return [{ key: `closure ${primary.id}`, kind: 'closure', from, to, text, primaryIds: [primary.id], rank }];
  });
}
