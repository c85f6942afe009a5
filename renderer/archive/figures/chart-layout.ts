/** Where the marks of a chart over time stand, and what its axes say. */

import * as d3 from 'd3';

export interface TimedValue {
  readonly at: Date;
  readonly value: number;
}

export interface ChartTick {
  readonly key: string;
  readonly place: number;
  readonly label: string;
}

export interface ChartLayout {
  /** SVG notation; empty for fewer than two places. */
  readonly line: string;
  readonly dots: readonly { readonly key: string; readonly x: number; readonly y: number }[];
  readonly xTicks: readonly ChartTick[];
  readonly yTicks: readonly ChartTick[];
  readonly box: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
}

export interface ChartAsked {
  readonly width: number;
  readonly height: number;
  /** What is drawn as dots, in any order. */
  readonly dots: readonly TimedValue[];
  /** What is drawn as a line, in order of time. */
  readonly line: readonly TimedValue[];
  /** `step`: a value holds until the next. */
  readonly curve: 'straight' | 'step';
  /** Values that ticks may stand at, from the finest distance to the coarsest. */
  readonly steps: readonly number[];
  readonly show: (value: number) => string;
}

const MARGIN = { left: 56, right: 16, top: 8, bottom: 24 } as const;
/** CSS pixels between two labels, at least. */
const X_GAP = 90;
const Y_GAP = 28;
/** Half of the longest label, `29 Mar 2026`: it stands about its tick, and may not reach over the chart's end. */
const HALF_LABEL = 36;
const HOUR_MS = 3600 * 1000;
const DAY_MS = 24 * HOUR_MS;

/** Values from zero up, for a chart at least 200 by 80; null where there is nothing to draw. */
export function chartLayout(asked: ChartAsked): ChartLayout | null {
  const { dots, line } = asked;
  const all = [...dots, ...line];
  const [first, last] = d3.extent(all, ({ at }) => at);
  const most = d3.max(all, ({ value }) => value);
  if (first === undefined || last === undefined || most === undefined) return null;
  const box = {
    left: MARGIN.left,
    right: Math.max(200, asked.width) - MARGIN.right,
    top: MARGIN.top,
    bottom: Math.max(80, asked.height) - MARGIN.bottom,
  };
  // From the start of the first day to the end of the last: what is of one day stands within it.
  const x = d3.scaleTime(
    [d3.timeDay.floor(first), d3.timeDay.offset(d3.timeDay.floor(last), 1)],
    [box.left, box.right],
  );
  const step = yStep(most, box.bottom - box.top, asked.steps);
  const top = Math.max(step, Math.ceil(most / step - 1e-9) * step);
  const y = d3.scaleLinear([0, top], [box.bottom, box.top]);
  const path = d3
    .line<TimedValue>(
      ({ at }) => x(at),
      ({ value }) => y(value),
    )
    .curve(asked.curve === 'step' ? d3.curveStepAfter : d3.curveLinear)
    .digits(1);
  return {
    line: line.length < 2 ? '' : (path(line) ?? ''),
    dots: dots.map(({ at, value }, index) => ({ key: `${index}`, x: x(at), y: y(value) })),
    xTicks: timeTicks(x, box.right - box.left),
    yTicks: d3.range(0, top + step / 2, step).map((value) => ({
      key: `${value}`,
      place: y(value),
      label: asked.show(value),
    })),
    box,
  };
}

/** The finest distance at which labels stand clear of each other. */
function yStep(most: number, height: number, steps: readonly number[]): number {
  const room = Math.max(1, Math.floor(height / Y_GAP));
  return steps.find((step) => most / step <= room) ?? d3.tickStep(0, Math.max(most, 1), room);
}

/** Names of days or months where they begin; of one day alone, in its middle. */
function timeTicks(x: d3.ScaleTime<number, number>, width: number): readonly ChartTick[] {
  const [from = new Date(0), to = new Date(0)] = x.domain();
  const tick = (at: Date, label: string) => ({ key: `${+at}`, place: x(at), label });
  if (+to - +from < 2 * DAY_MS - HOUR_MS) return [tick(new Date((+from + +to) / 2), byDay(from))];
  const days = x.ticks(Math.max(1, Math.floor(width / X_GAP))).filter((at) => +d3.timeDay.floor(at) === +at);
  const isByDay = days.length < 2 || +(days[1] as Date) - +(days[0] as Date) < 27 * DAY_MS;
  const inSight = days.filter((at) => x(at) + HALF_LABEL <= MARGIN.left + width + MARGIN.right);
  if (inSight.length === 0) return [tick(from, byDay(from))];
  return clearOfEachOther(inSight.map((at) => tick(at, isByDay ? byDay(at) : byMonth(at))));
}

const byDay = d3.timeFormat('%-d %b %Y');
const byMonth = d3.timeFormat('%b %Y');

function clearOfEachOther(ticks: readonly ChartTick[]): readonly ChartTick[] {
  const kept: ChartTick[] = [];
  for (const tick of ticks) {
    const last = kept.at(-1);
    if (last === undefined || tick.place - last.place >= X_GAP) kept.push(tick);
  }
  return kept;
}

/** One value for each calendar month in which there is one, at the last of its times, in order. */
export function monthly(values: readonly TimedValue[], sum: 'median' | 'last'): readonly TimedValue[] {
  const ordered = d3.sort(values, ({ at }) => at);
  return [...d3.group(ordered, ({ at }) => +d3.timeMonth(at)).values()].map((month) => ({
    at: (month.at(-1) as TimedValue).at,
    value: sum === 'last' ? (month.at(-1) as TimedValue).value : (d3.median(month, ({ value }) => value) ?? 0),
  }));
}
