/** A header drawn flat: its tubes as outlines, all alike, the nearer over the farther. */

import { type FlatBounds, type FlatDrawing, heightOf, widthOf } from './drawing-layout.ts';

interface Props {
  readonly drawing: FlatDrawing;
  /** What is in sight; left out, the drawing itself. Two pictures with sights of one size, drawn in one size, have one scale. */
  readonly sight?: FlatBounds;
  /** Thickness of the outlines in mm. */
  readonly lineMm: number;
  /** For those who do not see it. */
  readonly title: string;
}

export function FlatPicture({ drawing, sight = drawing.bounds, lineMm, title }: Props) {
  const box = `${sight.leftMm} ${-sight.highMm} ${widthOf(sight)} ${heightOf(sight)}`;
  return (
    <svg className="flat-picture" viewBox={box} role="img" aria-label={title}>
      {drawing.tubes.map(({ key, path, ends, widthMm }) => (
        <g key={key}>
          <path d={path} className="flat-picture-edge" strokeWidth={widthMm + lineMm} />
          {ends === '' ? null : <path d={ends} className="flat-picture-end" strokeWidth={lineMm} />}
          <path d={path} className="flat-picture-tube" strokeWidth={Math.max(1, widthMm - lineMm)} />
        </g>
      ))}
    </svg>
  );
}
