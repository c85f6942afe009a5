/** One small chart over time, with what it says in words and the same figures as a table. */

import { type ReactNode, useMemo } from 'react';
import { FigureText } from '../../ui/figure-text.tsx';
import { useWidth } from '../../ui/hooks/use-width.ts';
import { type ChartAsked, type ChartLayout, chartLayout, type TimedValue } from './chart-layout.ts';

interface Props extends Pick<ChartAsked, 'curve' | 'steps' | 'show'> {
  readonly title: string;
  /** What is counted, and how. */
  readonly about: ReactNode;
  /** What the chart comes to. */
  readonly finding: string;
  readonly dots: readonly TimedValue[];
  /** A value a month, in order. */
  readonly months: readonly TimedValue[];
  readonly line: readonly TimedValue[];
  /** Heading of the column of values. */
  readonly column: string;
}

const HEIGHT = 190;
/** Until it has been measured. */
const FIRST_WIDTH = 420;
const month = new Intl.DateTimeFormat('en-GB', { month: 'long', year: 'numeric' });

export function ShopChart(props: Props) {
  const { title, about, finding, dots, line, curve, steps, show } = props;
  const [frame, measured] = useWidth();
  const width = measured === 0 ? FIRST_WIDTH : measured;
  const layout = useMemo(
    () => chartLayout({ width, height: HEIGHT, dots, line, curve, steps, show }),
    [width, dots, line, curve, steps, show],
  );
  return (
    <section className="shop-chart" aria-label={title}>
      <h2>{title}</h2>
      <p className="muted">{about}</p>
      <p>
        <FigureText text={finding} />
      </p>
      <div ref={frame} className="shop-chart-frame">
        {layout === null ? null : <Drawn layout={layout} width={width} title={`${title}. ${finding}`} />}
      </div>
      {layout === null ? null : <MonthTable {...props} />}
    </section>
  );
}

interface DrawnProps {
  readonly layout: ChartLayout;
  readonly width: number;
  readonly title: string;
}

function Drawn({ layout, width, title }: DrawnProps) {
  const { box } = layout;
  return (
    <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} role="img" aria-label={title}>
      {layout.yTicks.map(({ key, place, label }) => (
        <g key={key}>
          <line x1={box.left} x2={box.right} y1={place} y2={place} className="shop-chart-grid" />
          <text x={box.left - 6} y={place} className="shop-chart-value">
            {label}
          </text>
        </g>
      ))}
      {layout.xTicks.map(({ key, place, label }) => (
        <text key={key} x={place} y={HEIGHT - 4} className="shop-chart-time">
          {label}
        </text>
      ))}
      {layout.line === '' ? null : <path d={layout.line} className="shop-chart-line" />}
      {layout.dots.map(({ key, x, y }) => (
        <circle key={key} cx={x} cy={y} r={3} className="shop-chart-dot" />
      ))}
    </svg>
  );
}

function MonthTable({ title, months, column, show }: Props) {
  return (
    <details>
      <summary>{title} as a table</summary>
      <table className="table">
        <thead>
          <tr>
            <th scope="col">Month</th>
            <th scope="col" className="number">
              {column}
            </th>
          </tr>
        </thead>
        <tbody>
          {months.map(({ at, value }) => (
            <tr key={+at}>
              <th scope="row">{month.format(at)}</th>
              <td className="number">
                <FigureText text={show(value)} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
