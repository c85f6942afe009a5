/** Names, figures, the dial and the axes as lines and text over the picture. */

import { SvgFigureText } from '../../ui/figure-text.tsx';
import type { PictureSize } from '../camera/view-camera.ts';
import type { Annotations, PictureAxis, PictureDial, PictureLine } from './annotations.ts';
import type { PictureLabel } from './labels.ts';

export function AnnotationMarks({
  annotations,
  textPx,
}: {
  readonly annotations: Annotations;
  readonly textPx: number;
}) {
  return (
    <>
      {annotations.dial === null ? null : <Dial dial={annotations.dial} />}
      {annotations.before.map(({ key, path }) => (
        <g key={key} className="view-before">
          <path d={path} className="view-before-under" />
          <path d={path} />
        </g>
      ))}
      {annotations.lines.map((line) => (
        <SpanLine key={line.key} line={line} />
      ))}
      {annotations.labels.map((label) => (
        <Label key={label.key} label={label} textPx={textPx} />
      ))}
    </>
  );
}

function Dial({ dial }: { readonly dial: PictureDial }) {
  return (
    <g className="view-dial">
      <path d={dial.circle + dial.zero + dial.hand} className="view-dial-under" />
      <path d={dial.circle} className="view-dial-circle" />
      <path d={dial.zero} className="view-dial-zero" />
      <path d={dial.sweep} className="view-dial-sweep" />
      <path d={dial.hand} className="view-dial-hand" />
    </g>
  );
}

/** A line with a bar across each end, as a dimension is drawn; a gap too small to see is a dot in a ring. */
function SpanLine({ line }: { readonly line: PictureLine }) {
  const { x1, y1, x2, y2 } = line;
  return (
    <g className="view-span" data-kind={line.kind}>
      <line x1={x1} y1={y1} x2={x2} y2={y2} className="view-span-under" />
      <line x1={x1} y1={y1} x2={x2} y2={y2} />
      <circle cx={x1} cy={y1} r={3.5} />
      <circle cx={x2} cy={y2} r={3.5} />
    </g>
  );
}

const AWAY_PX = 4;

function Label({ label, textPx }: { readonly label: PictureLabel; readonly textPx: number }) {
  const half = ((label.text.length + 1) * 0.58 * textPx) / 2;
  const leader = leaderEnd(label, half, textPx);
  return (
    <g className="view-label" data-kind={label.kind} data-in-hand={label.isInHand || undefined}>
      {leader === null ? null : <line x1={label.atX} y1={label.atY} x2={leader.x} y2={leader.y} />}
      <text x={label.x} y={label.y} fontSize={textPx} dominantBaseline="central" textAnchor="middle">
        <SvgFigureText text={label.text} />
      </text>
    </g>
  );
}

/** Where the line to a label ends: at the side that it comes from; null where the label stands on what it names. */
function leaderEnd({ x, y, atX, atY }: PictureLabel, half: number, textPx: number) {
  if (Math.hypot(x - atX, y - atY) <= AWAY_PX) return null;
  if (Math.abs(x - atX) <= half) return { x, y: y + (atY > y ? 0.6 : -0.6) * textPx };
  return { x: x + (atX > x ? half : -half), y };
}

const AXIS_TEXTS = 2;

/** Which way forward, outboard and up are, in the lower left corner. */
export function AxesMark({ axes, size, textPx }: { axes: readonly PictureAxis[]; size: PictureSize; textPx: number }) {
  const axisPx = AXIS_TEXTS * textPx;
  const [x0, y0] = [0.48 * size.widthPx, size.heightPx - axisPx - 1.6 * textPx];
  return (
    <g className="view-axes">
      {axes
        .filter(({ x, y }) => Math.hypot(x, y) > 0.1)
        .map(({ name, x, y }) => (
          <g key={name}>
            <line x1={x0} y1={y0} x2={x0 + x * axisPx} y2={y0 + y * axisPx} />
            <text
              x={x0 + x * (axisPx + 6)}
              y={y0 + y * (axisPx + 0.8 * textPx)}
              fontSize={0.85 * textPx}
              dominantBaseline="central"
              textAnchor={x > 0.3 ? 'start' : x < -0.3 ? 'end' : 'middle'}
            >
              {name}
            </text>
          </g>
        ))}
    </g>
  );
}
