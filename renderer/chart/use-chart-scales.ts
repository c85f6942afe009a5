/** The two scales of the chart, as wide as the page lets them be. */

import { type RefCallback, useMemo } from 'react';
import { type Header, type MatchReport, mmOf } from '../../core/index.ts';
import { useWidth } from '../ui/use-width.ts';
import { type DeviationScale, deviationScale, halfSpanMm } from './deviation-scale.ts';
import { type FullScale, fullScale, fullSpanMm } from './strip-layout.ts';

export interface ChartScales {
  readonly full: FullScale;
  readonly deviation: DeviationScale;
  readonly band: { readonly minusMm: number; readonly plusMm: number };
  /** To be put on the elements whose widths the scales fill. */
  readonly fullRef: RefCallback<Element>;
  readonly deviationRef: RefCallback<Element>;
}

/** Each part stays the same object until it changes, so that rows are drawn again only when they must be. */
export function useChartScales(header: Header, report: MatchReport): ChartScales {
  const { display, tolerance } = header.settings;
  const { minus, plus } = tolerance;
  const [fullRef, fullPx] = useWidth();
  const [deviationRef, deviationPx] = useWidth();
  const spanMm = fullSpanMm(report, display);
  const full = useMemo(() => fullScale(spanMm, fullPx), [spanMm, fullPx]);
  const band = useMemo(() => ({ minusMm: mmOf(minus), plusMm: mmOf(plus) }), [minus, plus]);
  const deviationsMm = report.primaries.map((match) => match.deviationMm);
  const halfMm = halfSpanMm({ deviationsMm, band, style: display });
  const deviation = useMemo(() => deviationScale(halfMm, deviationPx), [halfMm, deviationPx]);
  return { full, deviation, band, fullRef, deviationRef };
}
