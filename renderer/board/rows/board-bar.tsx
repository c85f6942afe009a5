/** The bar of one row: from the target to the primary's end, with the band behind it. */

import type { PrimaryMatch } from '../../../core/index.ts';
import type { Clamp, DeviationScale } from '../scale/deviation-scale.ts';

interface Props {
  readonly match: PrimaryMatch;
  /** As a move would leave it; null: none is looked at. */
  readonly preview: PrimaryMatch | null;
  readonly scale: DeviationScale;
  readonly band: { readonly minusMm: number; readonly plusMm: number };
}

/** Heights are in percent of the row, so that one drawing serves all sizes. */
export function Bar({ match, preview, scale, band }: Props) {
  const [lowPx, highPx, zeroPx] = [scale.x(-band.minusMm), scale.x(band.plusMm), scale.x(0)];
  return (
    <svg className="board-bar" width={scale.widthPx} height="100%" aria-hidden="true" focusable="false">
      <rect className="band" x={lowPx} width={Math.max(0, highPx - lowPx)} height="100%" />
      <line className="band-edge" x1={lowPx} x2={lowPx} y1="0" y2="100%" />
      <line className="band-edge" x1={highPx} x2={highPx} y1="0" y2="100%" />
      <line className="zero-line" x1={zeroPx} x2={zeroPx} y1="0" y2="100%" />
      <Now match={match} scale={scale} />
      {preview === null || preview.deviationMm === null ? null : (
        <Length className="bar-after" deviationMm={preview.deviationMm} scale={scale} />
      )}
    </svg>
  );
}

function Now({ match, scale }: { readonly match: PrimaryMatch; readonly scale: DeviationScale }) {
  const { deviationMm, standing, verdict, building } = match;
  if (deviationMm === null) return null;
  if (standing === 'setsLength') {
    return <End className="bar-setter" xPx={scale.x(0)} clamp={null} isHollow={building !== null} />;
  }
  return (
    <g data-verdict={verdict ?? 'none'}>
      <Length className={verdict === null ? 'bar-hollow' : 'bar-judged'} deviationMm={deviationMm} scale={scale} />
    </g>
  );
}

interface LengthProps {
  readonly className: string;
  readonly deviationMm: number;
  readonly scale: DeviationScale;
}

function Length({ className, deviationMm, scale }: LengthProps) {
  const [zeroPx, endPx] = [scale.x(0), scale.x(deviationMm)];
  return (
    <g className={className}>
      <rect className="bar-length" x={Math.min(zeroPx, endPx)} width={Math.abs(endPx - zeroPx)} />
      <End className="bar-end" xPx={endPx} clamp={scale.clampOf(deviationMm)} isHollow={false} />
    </g>
  );
}

interface EndProps {
  readonly className: string;
  readonly xPx: number;
  readonly clamp: Clamp;
  readonly isHollow: boolean;
}

const CROSSBAR = 'M-1.5,-8 H1.5 V8 H-1.5 Z';
const ARROW_LOW = 'M-8,0 L2,-8 L2,8 Z';
const ARROW_HIGH = 'M8,0 L-2,-8 L-2,8 Z';
const RING = 'M-5,0 A5,5 0 1 0 5,0 A5,5 0 1 0 -5,0 Z';

/** A crossbar where the tube ends; an arrow where that is past the end of the scale; a ring for the one all are held against. */
function End({ className, xPx, clamp, isHollow }: EndProps) {
  const path = clamp === 'low' ? ARROW_LOW : clamp === 'high' ? ARROW_HIGH : CROSSBAR;
  return (
    <svg x={xPx} y="50%" overflow="visible" aria-hidden="true" focusable="false">
      <path
        className={className}
        data-clamp={clamp ?? 'none'}
        data-hollow={isHollow || undefined}
        d={className === 'bar-setter' ? RING : path}
      />
    </svg>
  );
}

/** Between the bar's end and its words: past a crossbar, and past an arrow. */
const GAP_PX = 7;
const ARROW_PX = 6;

/** Where the words at a bar's end begin, in pixels from the track's left edge, and on which side of that they stand. */
export function wordsPlace(
  { deviationMm, standing }: PrimaryMatch,
  scale: DeviationScale,
): { readonly side: 'left' | 'right'; readonly atPx: number } {
  if (deviationMm === null || standing === 'setsLength') return { side: 'right', atPx: scale.x(0) + GAP_PX + 3 };
  const clamp = scale.clampOf(deviationMm);
  const gapPx = GAP_PX + (clamp === null ? 0 : ARROW_PX);
  const endPx = scale.x(deviationMm);
  return deviationMm < 0 ? { side: 'left', atPx: endPx - gapPx } : { side: 'right', atPx: endPx + gapPx };
}

/** Clear of a bar on the given side of the target, wherever that bar goes, in pixels from the track's left edge. */
export function clearOf({ deviationMm }: PrimaryMatch, side: 'left' | 'right', scale: DeviationScale): number {
  const mm = deviationMm ?? 0;
  const gapPx = GAP_PX + (scale.clampOf(mm) === null ? 0 : ARROW_PX);
  return side === 'left' ? scale.x(Math.min(0, mm)) - gapPx : scale.x(Math.max(0, mm)) + gapPx;
}
