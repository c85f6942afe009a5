/** The pulses of one collector over two turns of the crank: with all lengths equal, and as they are. */

import type { CollectorPulses } from '../../core/index.ts';
import { useWidth } from '../ui/hooks/use-width.ts';
import { type PulseLane, pulseLayout } from './pulse-layout.ts';

const LANE_EQUAL = 38;
const LANE_BUILT = 92;
const AXIS = 108;
const HEIGHT = 124;
/** Until the panel has been measured. */
const FIRST_WIDTH = 300;

export function PulseChart({ collector, title }: { readonly collector: CollectorPulses; readonly title: string }) {
  const [frame, measured] = useWidth();
  const width = measured === 0 ? FIRST_WIDTH : measured;
  const { ticks, equal, built } = pulseLayout(collector, width);
  const [first, last] = [ticks[0]?.x ?? 0, ticks.at(-1)?.x ?? width];
  return (
    <div ref={frame} className="pulse-chart">
      <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} role="img" aria-label={title}>
        {ticks.map(({ deg, x }) => (
          <g key={deg}>
            <line x1={x} x2={x} y1={LANE_EQUAL - 12} y2={AXIS} className="pulse-grid" />
            <text x={x} y={HEIGHT - 3} className="pulse-axis">
              {deg}°
            </text>
          </g>
        ))}
        <Lane lane={equal} y={LANE_EQUAL} from={first} to={last} word="equal lengths" />
        <Lane lane={built} y={LANE_BUILT} from={first} to={last} word="as built" />
      </svg>
    </div>
  );
}

interface LaneProps {
  readonly lane: PulseLane;
  readonly y: number;
  readonly from: number;
  readonly to: number;
  readonly word: string;
}

/** The tip of a mark is its degree. */
function Lane({ lane, y, from, to, word }: LaneProps) {
  return (
    <g>
      <text x={from} y={y - 26} className="pulse-lane">
        {word}
      </text>
      <line x1={from} x2={to} y1={y} y2={y} className="pulse-line" />
      {lane.marks.map(({ primaryId, cylinder, x }) => (
        <g key={primaryId}>
          <path d={`M${x} ${y}l-4 -7h8z`} className="pulse-mark" />
          <text x={x} y={y - 9} className="pulse-name">
            {cylinder}
          </text>
        </g>
      ))}
      {lane.spacings.map(({ key, x, text }) => (
        <text key={key} x={x} y={y + 11} className="pulse-spacing">
          {text}
        </text>
      ))}
    </g>
  );
}
