/** Under the rows of the deviation scale: a bracket from the least to the greatest, with an open ring at the mean. */

import { deviationExtent, type MatchReport } from '../../core/index.ts';
import type { DeviationScale } from './deviation-scale.ts';

const HEIGHT_PX = 14;
const MIDDLE_PX = 6;
const END_PX = 4;
const RING_PX = 4;

interface Props {
  readonly report: MatchReport;
  readonly deviation: DeviationScale;
}

/** The caption says the same in words. Nothing is drawn for fewer than two primaries. */
export function ChartFoot({ report, deviation }: Props) {
  const extent = deviationExtent(report);
  return (
    <div className="chart-head chart-foot" aria-hidden="true">
      <span />
      <span />
      <div>
        <svg className="chart-axis" width={deviation.widthPx} height={HEIGHT_PX} aria-hidden="true" focusable="false">
          {extent === null ? null : <Bracket {...extent} deviation={deviation} />}
        </svg>
      </div>
    </div>
  );
}

type BracketProps = NonNullable<ReturnType<typeof deviationExtent>> & { readonly deviation: DeviationScale };

function Bracket({ leastMm, greatestMm, meanMm, deviation }: BracketProps) {
  const [fromPx, toPx] = [deviation.x(leastMm), deviation.x(greatestMm)];
  const [top, foot] = [MIDDLE_PX - END_PX, MIDDLE_PX + END_PX];
  // Past the end of the scale the bracket stays open.
  const from = deviation.clampOf(leastMm) === null ? `M${fromPx},${top}V${foot}M` : 'M';
  const to = deviation.clampOf(greatestMm) === null ? `M${toPx},${top}V${foot}` : '';
  return (
    <>
      <path className="spread-bracket" d={`${from}${fromPx},${MIDDLE_PX}H${toPx}${to}`} />
      {deviation.clampOf(meanMm) === null ? (
        <circle className="mean-mark" cx={deviation.x(meanMm)} cy={MIDDLE_PX} r={RING_PX} />
      ) : null}
    </>
  );
}
