/** The figures of the whole header, as a block of names and values. */

import {
  type BuildSheet,
  bandWords,
  type Engine,
  formatAngle,
  formatFiringIntervals,
  formatFiringOrder,
  formatLength,
  type LengthStyle,
  mmOf,
  type Settings,
  typedText,
} from '../../../core/index.ts';
import type { PageFlow } from '../pages/flow/page-flow.ts';
import { LINE_RATIO, textLines } from '../pages/flow/text-lines.ts';
import { words } from '../pages/marks.ts';

type Figure = readonly [name: string, value: string];

const COLUMNS = 3;
const NAME_MM = 2.6;
const VALUE_MM = 3.4;
const GAP_MM = 4;

export function drawSummary(flow: PageFlow, sheet: BuildSheet): void {
  const figures = summaryFigures(sheet);
  const widthMm = (flow.widthMm - GAP_MM * (COLUMNS - 1)) / COLUMNS;
  for (let first = 0; first < figures.length; first += COLUMNS) {
    drawFigures(flow, figures.slice(first, first + COLUMNS), widthMm);
  }
  flow.space(1);
}

function drawFigures(flow: PageFlow, figures: readonly Figure[], widthMm: number): void {
  const look = { sizeMm: VALUE_MM, isBold: true };
  const lines = figures.map(([, value]) => textLines(flow.typeface, value, { ...look, widthMm }));
  const heightMm = NAME_MM * LINE_RATIO + Math.max(...lines.map(({ length }) => length)) * VALUE_MM * LINE_RATIO;
  flow.need(heightMm);
  figures.forEach(([name], at) => {
    const left = flow.leftMm + at * (widthMm + GAP_MM);
    flow.draw(words(name, [left, flow.yMm + NAME_MM], { sizeMm: NAME_MM, ink: 'grey' }));
    (lines[at] ?? []).forEach((text, lineAt) => {
      const foot = flow.yMm + NAME_MM * LINE_RATIO + VALUE_MM + lineAt * VALUE_MM * LINE_RATIO;
      flow.draw(words(text, [left, foot], look));
    });
  });
  flow.yMm += heightMm + 1.2;
}

/** The same figures go into the list for spreadsheets. */
export function summaryFigures({ header, report }: BuildSheet): readonly Figure[] {
  const { settings } = header;
  const style = settings.display;
  const length = (mm: number | null) => (mm === null ? '\u2013' : formatLength(mm, style));
  const pieces = header.primaries.reduce((sum, primary) => sum + primary.pieces.length, 0);
  return [
    ['Target', length(report.targetMm)],
    ['Tolerance', bandWords(mmOf(settings.tolerance.minus), mmOf(settings.tolerance.plus), style)],
    ['Spread, mean', `${length(report.spreadMm)}, ${length(report.meanMm)}`],
    ['Tube', tubeWords(settings.tube)],
    ['CLR', typedText(settings.clr)],
    ['Primaries, pieces', `${header.primaries.length}, ${pieces}`],
    ['Minimum clearance', length(mmOf(settings.wantedGap))],
    [
      'Closed within',
      `${formatLength(mmOf(settings.closure.gap), finer(style))}, ${formatAngle(settings.closure.tiltDeg)}`,
    ],
    ['Weld shrinkage, each joint', shrinkageWords(settings)],
    ...engineFigures(header.engine),
  ];
}

/** Nothing where nobody has said which engine it is for: a guess does not go on paper. */
function engineFigures(engine: Engine | undefined): readonly Figure[] {
  if (engine === undefined) return [];
  const intervals = formatFiringIntervals(engine);
  const { firingOrder, rpm, gasTemperature } = engine;
  const degrees = gasTemperature.unit === 'K' ? 'K' : `\u00b0${gasTemperature.unit}`;
  return [
    ['Firing order', formatFiringOrder(firingOrder)],
    ['Fires', intervals === 'even' ? 'evenly' : `${intervals}\u00b0 apart`],
    ['Engine speed, gas', `${rpm} rpm, ${gasTemperature.value} ${degrees}`],
  ];
}

/** A closure gap of half a millimetre is nothing in sixteenths. */
function finer(style: LengthStyle): LengthStyle {
  return style.kind === 'mm' ? style : { kind: 'decimalInch', places: 3 };
}

function shrinkageWords({ weldShrinkage }: Settings): string {
  return mmOf(weldShrinkage) === 0 ? 'not counted' : typedText(weldShrinkage);
}

export function tubeWords({ material, od, wall }: Settings['tube']): string {
  return `${typedText(od)} OD, ${typedText(wall)} wall, ${material}`;
}
