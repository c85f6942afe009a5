/** The two axes over the rows of the chart. */

import type { LengthStyle } from '../../core/index.ts';
import { ChartAxis } from './chart-axis.tsx';
import { lengthTicksMm } from './length-ticks.ts';
import type { ChartScales } from './use-chart-scales.ts';

const LABEL_GAP_PX = 56;
const FINE_TICK_PX = 5;

export function ChartHead({ scales, style }: { readonly scales: ChartScales; readonly style: LengthStyle }) {
  const { full, deviation } = scales;
  const fullRange = { fromMm: 0, toMm: full.spanMm, widthPx: full.widthPx };
  const { halfMm } = deviation;
  const drawnPx = deviation.x(halfMm) - deviation.x(-halfMm);
  return (
    <div className="chart-head" aria-hidden="true">
      <span />
      <div ref={scales.fullRef}>
        <ChartAxis
          ticksMm={lengthTicksMm(fullRange, LABEL_GAP_PX, style)}
          fineMm={lengthTicksMm(fullRange, FINE_TICK_PX, style)}
          x={full.x}
          widthPx={full.widthPx}
          style={style}
        />
      </div>
      <div ref={scales.deviationRef}>
        <ChartAxis
          ticksMm={[-halfMm, 0, halfMm]}
          fineMm={lengthTicksMm({ fromMm: -halfMm, toMm: halfMm, widthPx: drawnPx }, FINE_TICK_PX, style)}
          x={deviation.x}
          widthPx={deviation.widthPx}
          style={style}
          signed
        />
      </div>
      <span />
    </div>
  );
}
