/** How the shop has done over time: the spread it reached, the joints it opened again, and the tube it had left. */

import { useEffect, useMemo, useState } from 'react';
import { formatLength, type LengthUnit } from '../../../core/index.ts';
import type { ResponseOf } from '../../../electron/bridge/contract.ts';
import { useAsk } from '../../host/host-bridge.ts';
import { writeScreen } from '../../ui/screen.ts';
import { monthly, type TimedValue } from './chart-layout.ts';
import { ShopChart } from './shop-chart.tsx';
import { COUNT_STEPS, jointsFinding, leftFinding, spreadFinding, TUBE_UNITS, UNIT_STYLES } from './shop-words.ts';
import '../archive.css';
import './shop-figures.css';

type ShopFigures = ResponseOf<'readShopFigures'>;

/** More dots than this run into each other; the line of months says as much. */
const MOST_DOTS = 200;

export function ShopFiguresScreen({ unit }: { readonly unit: LengthUnit }) {
  const ask = useAsk();
  const [figures, setFigures] = useState<ShopFigures | null>(null);
  const [words, setWords] = useState<string | null>(null);
  useEffect(() => {
    let isWanted = true;
    void ask('readShopFigures', {}).then((answer) => {
      if (!isWanted) return;
      if (answer.ok) setFigures(answer.value);
      else setWords(answer.words);
    });
    return () => {
      isWanted = false;
    };
  }, [ask]);
  return (
    <main className="page page-wide" id="screen" aria-busy={figures === null && words === null}>
      <div className="page-head">
        <h1>Shop figures</h1>
        <a className="archive-link" href={writeScreen({ kind: 'archive' })}>
          Back to the archive
        </a>
      </div>
      {words === null ? null : <p>{words}</p>}
      {figures === null ? null : <Charts figures={figures} unit={unit} />}
    </main>
  );
}

function Charts({ figures, unit }: { readonly figures: ShopFigures; readonly unit: LengthUnit }) {
  const spreads = useMemo(
    () => figures.finished.flatMap((one) => (one.spreadMm === null ? [] : timed(one.finishedAt, one.spreadMm))),
    [figures],
  );
  const joints = useMemo(
    () => figures.finished.flatMap((one) => (one.jointsOpened === null ? [] : timed(one.finishedAt, one.jointsOpened))),
    [figures],
  );
  const left = useMemo(
    () => figures.tubeLeft.map(({ at, mm }) => timed(at, mm / TUBE_UNITS[unit].mm)),
    [figures, unit],
  );
  const { style, steps } = UNIT_STYLES[unit];
  const single = figures.finished.length - spreads.length;
  const notKnown = figures.finished.length - joints.length;
  return (
    <div className="shop-charts">
      <ShopChart
        title="Spread reached"
        about="Longest less shortest primary of each finished header. The line is the median of each month."
        finding={spreadFinding(spreads, single, (mm) => formatLength(mm, style))}
        {...dotsAndMonths(spreads)}
        column="Median spread"
        curve="straight"
        steps={steps}
        show={UNIT_STYLES[unit].show}
      />
      <ShopChart
        title="Joints opened again"
        about="Tacked or welded joints that had to come apart for what was changed, over the making of each finished header. Steps that were undone do not count. The line is the median of each month."
        finding={jointsFinding(joints, notKnown)}
        {...dotsAndMonths(joints)}
        column="Median joints"
        curve="straight"
        steps={COUNT_STEPS}
        show={String}
      />
      <ShopChart
        title="Tube left"
        about={`Length of all straights and bends on the shelf at the end of each day on which it changed, in ${TUBE_UNITS[unit].name}, with legs.`}
        finding={leftFinding(left, TUBE_UNITS[unit].sign)}
        dots={left.length === 1 ? left : NO_DOTS}
        months={monthly(left, 'last')}
        line={left}
        column="Left at its end"
        curve="step"
        steps={COUNT_STEPS}
        show={TUBE_UNITS[unit].show}
      />
    </div>
  );
}

const NO_DOTS: readonly TimedValue[] = [];

function dotsAndMonths(values: readonly TimedValue[]) {
  const months = monthly(values, 'median');
  return { dots: values.length <= MOST_DOTS ? values : NO_DOTS, months, line: months };
}

function timed(label: string, value: number): TimedValue {
  return { at: new Date(label), value };
}
