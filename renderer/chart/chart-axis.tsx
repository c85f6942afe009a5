/** The marks of a scale, as on a tape: fine ones, and longer ones with figures. */

import { formatDeviation, formatLengthBare, type LengthStyle } from '../../core/index.ts';
import { SvgFigureText } from '../ui/figure-text.tsx';

interface Props {
  readonly ticksMm: readonly number[];
  readonly fineMm: readonly number[];
  readonly x: (mm: number) => number;
  readonly widthPx: number;
  readonly style: LengthStyle;
  /** Figures carry their sign; zero has none. */
  readonly signed?: boolean;
}

const HEIGHT_PX = 26;

export function ChartAxis({ ticksMm, fineMm, x, widthPx, style, signed = false }: Props) {
  const words = (mm: number) => (signed && mm !== 0 ? formatDeviation(mm, style) : formatLengthBare(mm, style));
  return (
    <svg className="chart-axis" width={widthPx} height={HEIGHT_PX} aria-hidden="true" focusable="false">
      <path className="axis-fine" d={fineMm.map((mm) => `M${x(mm)},${HEIGHT_PX - 4}V${HEIGHT_PX}`).join('')} />
      {ticksMm.map((mm) => (
        <g key={mm} transform={`translate(${x(mm)},0)`}>
          <line className="axis-mark" y1={HEIGHT_PX - 8} y2={HEIGHT_PX} />
          <text className="axis-figure" y={HEIGHT_PX - 11} textAnchor={anchorAt(x(mm), widthPx)}>
            <SvgFigureText text={words(mm)} />
          </text>
        </g>
      ))}
    </svg>
  );
}

/** Figures at the ends are drawn inwards, so that none is cut off. */
function anchorAt(xPx: number, widthPx: number): 'start' | 'middle' | 'end' {
  if (xPx < 16) return 'start';
  return xPx > widthPx - 20 ? 'end' : 'middle';
}
