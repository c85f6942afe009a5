/** The marks of the board's scale, as on a tape: fine ones, and longer ones with figures. */

import { formatDeviation, type LengthStyle, unitOf } from '../../../core/index.ts';
import { SvgFigureText } from '../../ui/figure-text.tsx';
import type { DeviationScale } from './deviation-scale.ts';
import { labelTicksMm, lengthTicksMm } from './length-ticks.ts';

interface Props {
  readonly scale: DeviationScale;
  readonly style: LengthStyle;
}

const HEIGHT_PX = 22;
/** Marks nearer than this run into a grey band. */
const FINE_TICK_PX = 4;
/** Most that a character of a label takes, and what is kept free between two labels. */
const CHARACTER_PX = 7.5;
const LABEL_GAP_PX = 10;

export function BoardAxis({ scale, style }: Props) {
  const { halfMm, widthPx, x } = scale;
  const range = { fromMm: -halfMm, toMm: halfMm, widthPx: x(halfMm) - x(-halfMm) };
  const words = (mm: number) => formatDeviation(mm, style);
  const labels = labelTicksMm(range, (mm) => words(mm).length * CHARACTER_PX + LABEL_GAP_PX, style);
  const fine = lengthTicksMm(range, FINE_TICK_PX, style);
  return (
    <svg className="board-axis" width={widthPx} height={HEIGHT_PX} aria-hidden="true" focusable="false">
      <path className="axis-fine" d={fine.map((mm) => `M${x(mm)},${HEIGHT_PX - 4}V${HEIGHT_PX}`).join('')} />
      <path className="axis-mark" d={labels.map((mm) => `M${x(mm)},${HEIGHT_PX - 7}V${HEIGHT_PX}`).join('')} />
      {labels.map((mm) => (
        <text key={mm} className="axis-figure" x={x(mm)} y={HEIGHT_PX - 10} textAnchor="middle">
          <SvgFigureText text={words(mm)} />
        </text>
      ))}
      <text className="axis-figure" x={widthPx - 2} y={HEIGHT_PX - 10} textAnchor="end">
        {unitOf(style)}
      </text>
    </svg>
  );
}
