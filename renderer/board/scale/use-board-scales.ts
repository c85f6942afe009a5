/** The scales of the board, as wide as the page lets them be. */

import { type RefCallback, useMemo } from 'react';
import { type Header, type MatchReport, mmOf } from '../../../core/index.ts';
import { useRoom, useWidth } from '../../ui/hooks/use-width.ts';
import { fullSpanMm } from '../strip/strip-layout.ts';
import { type DeviationScale, deviationScale, halfSpanMm, wordsRoomPx } from './deviation-scale.ts';

export interface BoardScales {
  readonly deviation: DeviationScale;
  /** Length in mm that every strip of pieces is drawn to. */
  readonly spanMm: number;
  readonly band: { readonly minusMm: number; readonly plusMm: number };
  /** To be put on the element whose width the scale fills. */
  readonly trackRef: RefCallback<Element>;
  /** Width of the whole board in CSS pixels, and what it is measured by. */
  readonly boardPx: number;
  readonly boardRef: RefCallback<Element>;
}

/** Each part stays the same object until it changes, so that rows are drawn again only when they must be. */
export function useBoardScales(header: Header, report: MatchReport): BoardScales {
  const { display, tolerance } = header.settings;
  const { minus, plus } = tolerance;
  const [trackRef, track] = useRoom();
  const [boardRef, boardPx] = useWidth();
  const spanMm = fullSpanMm(report, display);
  const band = useMemo(() => ({ minusMm: mmOf(minus), plusMm: mmOf(plus) }), [minus, plus]);
  // What is still being built may have feet to go, and would leave the others no room.
  const deviationsMm = report.primaries.map(({ verdict, deviationMm }) => (verdict === null ? null : deviationMm));
  const halfMm = halfSpanMm({ deviationsMm, band, style: display });
  const deviation = useMemo(
    () => deviationScale(halfMm, track.widthPx, wordsRoomPx(track.widthPx, track.letterPx)),
    [halfMm, track],
  );
  return { deviation, spanMm, band, trackRef, boardPx, boardRef };
}
