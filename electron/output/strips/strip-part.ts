/** One part of a strip drawn on the page in hand, from the flow's place on, in true size. */

import type { Strip, StripLabel, StripLine } from '../../../core/index.ts';
import type { PageMark } from '../../bridge/page-messages.ts';
import type { PageFlow } from '../pages/flow/page-flow.ts';
import { line, type Point, words } from '../pages/marks.ts';
import { clipRun, type Window } from './clip.ts';
import type { Join, Part } from './parts.ts';

/** How each line is drawn; what is sawn to stands out. */
const LOOKS = {
  edge: { widthMm: 0.15, ink: 'grey' },
  saw: { widthMm: 0.35 },
  mark: { widthMm: 0.25, dashMm: 2 },
  guide: { widthMm: 0.12, ink: 'grey' },
} as const satisfies Readonly<Record<StripLine['use'], object>>;

export const LABEL_MM = 2.6;

export function drawPart(flow: PageFlow, strip: Strip, { window, own, joins }: Part): void {
  const place = (xMm: number, yMm: number): Point => [flow.leftMm + xMm - window.left, flow.yMm + yMm - window.top];
  for (const { use, points } of strip.lines) {
    for (const run of clipRun(points, window))
      flow.draw(
        line(
          run.map(({ xMm, yMm }) => place(xMm, yMm)),
          LOOKS[use],
        ),
      );
  }
  for (const join of joins) flow.draw(...joinMarks(join, window, place));
  for (const label of strip.labels) {
    if (isOwn(label, own)) flow.draw(labelMark(flow, label, { window, place }));
  }
}

/** The last part also owns its far edges. */
function isOwn({ at: { xMm, yMm } }: StripLabel, { left, right, top, bottom }: Window): boolean {
  return xMm >= left && xMm <= right && yMm >= top && yMm <= bottom;
}

interface Placing {
  readonly window: Window;
  readonly place: (xMm: number, yMm: number) => Point;
}

/** Moved back into the part where it would run over its edge. */
function labelMark(flow: PageFlow, { at, text, isUpright }: StripLabel, { window, place }: Placing): PageMark {
  const lengthMm = flow.typeface.widthMm(text, { sizeMm: LABEL_MM, isBold: false });
  const within = (from: number, low: number, high: number) => Math.max(low, Math.min(from, high));
  const x = isUpright ? at.xMm : within(at.xMm, window.left, window.right - lengthMm);
  const y = isUpright ? within(at.yMm, window.top, window.bottom - lengthMm) : at.yMm;
  return words(text, place(x, y), { sizeMm: LABEL_MM, isTurned: isUpright });
}

/** A dashed line where the neighbour's has to come to lie, and its name at both ends. */
function joinMarks(join: Join, window: Window, place: Placing['place']): readonly PageMark[] {
  const dashed = { widthMm: 0.2, dashMm: 1.2 };
  const small = { sizeMm: LABEL_MM, isBold: true };
  if (join.kind === 'upright') {
    const x = join.xMm;
    return [
      line([place(x, window.top), place(x, window.bottom)], dashed),
      words(`join ${join.name}`, place(x + 1.2, window.top + 2), { ...small, isTurned: true }),
    ];
  }
  return [
    line([place(window.left, join.yMm), place(window.right, join.yMm)], dashed),
    words(`join ${join.name}`, place(window.left + 2, join.yMm - 0.8), small),
  ];
}
