/** The lengths that a primary can have with two bends and with three, on a line with the target and the others; a place on it is a length to aim at. */

import { type KeyboardEvent, type MouseEvent, useState } from 'react';
import type { LengthStyle, ReachableLengths } from '../../../core/index.ts';
import { FigureText, SvgFigureText } from '../../ui/figure-text.tsx';
import { useWidth } from '../../ui/hooks/use-width.ts';
import { type KnownLength, lengthAfterKey, type ReachBar, type ReachLayout, reachLayout } from './reach-layout.ts';
import { lengthWords } from './reach-words.ts';

const WORDS = 5;
const LANE_TWO = 30;
const LANE_THREE = 52;
const BAR = 14;
const AXIS = 74;
const HEIGHT = 98;
/** Until the panel has been measured. */
const FIRST_WIDTH = 300;

interface Props {
  readonly reach: ReachableLengths;
  readonly targetMm: number | null;
  readonly others: readonly KnownLength[];
  readonly style: LengthStyle;
  readonly onTake: (mm: number) => void;
}

export function ReachChart({ reach, targetMm, others, style, onTake }: Props) {
  const [frame, measured] = useWidth();
  const [lookedMm, setLookedMm] = useState<number | null>(null);
  const width = measured === 0 ? FIRST_WIDTH : measured;
  const layout = reachLayout({ reach, targetMm, others, style }, width);
  const line = { lowMm: layout.lowMm, highMm: layout.highMm, style };
  const atMm = lookedMm ?? targetMm ?? reach.leastMm ?? layout.lowMm;
  const under = ({ currentTarget, clientX }: MouseEvent) =>
    layout.lengthAt(clientX - currentTarget.getBoundingClientRect().left);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const toMm = lengthAfterKey(atMm, event.key, line);
    if (toMm !== null) setLookedMm(toMm);
    else if (event.key === 'Enter') onTake(atMm);
    else if (event.key === 'Escape' && lookedMm !== null) setLookedMm(null);
    else return;
    event.stopPropagation();
    event.preventDefault();
  };
  return (
    <div ref={frame} className="reach-chart">
      <div
        className="reach-line"
        role="slider"
        tabIndex={0}
        aria-label="Length to aim at"
        aria-valuemin={Math.round(layout.lowMm)}
        aria-valuemax={Math.round(layout.highMm)}
        aria-valuenow={Math.round(atMm)}
        aria-valuetext={lengthWords(atMm, reach, style)}
        onKeyDown={onKeyDown}
        onPointerMove={(event) => setLookedMm(under(event))}
        onPointerLeave={() => setLookedMm(null)}
        onClick={(event) => onTake(under(event))}
      >
        <Drawing layout={layout} width={width} atMm={atMm} targetMm={targetMm} />
      </div>
      <p className="reach-at" aria-hidden="true">
        <FigureText text={lengthWords(atMm, reach, style)} />
      </p>
    </div>
  );
}

interface DrawingProps {
  readonly layout: ReachLayout;
  readonly width: number;
  readonly atMm: number;
  readonly targetMm: number | null;
}

/** Seen only: the slider and the sentences below say the same. */
function Drawing({ layout, width, atMm, targetMm }: DrawingProps) {
  return (
    <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} aria-hidden="true">
      {layout.marks.map(({ key, x, text }) => (
        <g key={key}>
          <path className="reach-mark" d={`M${x} 20l-4 -6h8z`} />
          <text className="reach-name" x={x} y={11}>
            {text}
          </text>
        </g>
      ))}
      <Lane y={LANE_TWO} word="2 bends" bars={layout.two} />
      <Lane y={LANE_THREE} word="3 bends" bars={layout.three} />
      <text className="reach-lane" x={WORDS} y={HEIGHT - 8}>
        {layout.unit}
      </text>
      {layout.ticks.map(({ x, text }) => (
        <text key={x} className="reach-tick" x={x} y={HEIGHT - 8}>
          <SvgFigureText text={text} />
        </text>
      ))}
      {targetMm === null ? null : <path className="reach-target" d={`M${layout.x(targetMm)} 22V${AXIS}`} />}
      <path className="reach-looked" d={`M${layout.x(atMm)} 22V${AXIS}`} />
    </svg>
  );
}

interface LaneProps {
  readonly y: number;
  readonly word: string;
  /** Null: not looked at yet. */
  readonly bars: readonly ReachBar[] | null;
}

function Lane({ y, word, bars }: LaneProps) {
  return (
    <g>
      <text className="reach-lane" x={WORDS} y={y + BAR - 3}>
        {word}
      </text>
      {bars === null ? (
        <text className="reach-lane" x={66} y={y + BAR - 3}>
          …
        </text>
      ) : (
        bars.map(({ x, width }) => <rect key={x} className="reach-bar" x={x} y={y} width={width} height={BAR} />)
      )}
    </g>
  );
}
