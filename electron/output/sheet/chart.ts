/** Every primary against the target on one scale, with its figures. */

import {
  type BuildSheet,
  closedWords,
  closureWords,
  describeProblem,
  formatLength,
  type Header,
  mmOf,
  primaryTitle,
  rowWords,
  type SheetPrimary,
} from '../../../core/index.ts';
import type { PageMark } from '../../bridge/page-messages.ts';
import type { PageFlow } from '../pages/flow/page-flow.ts';
import { drawTable, type TableRow } from '../pages/flow/table.ts';
import { block, line, type Point } from '../pages/marks.ts';

export function drawChart(flow: PageFlow, sheet: BuildSheet): void {
  const { header, report, primaries } = sheet;
  if (primaries.length === 0) return;
  const style = header.settings.display;
  const scale = chartScale(sheet);
  const rows = primaries.map((primary): TableRow => {
    const { match } = primary;
    const cells = [
      titleOf(primary),
      '',
      lengthWords(primary, header),
      rowWords(match, style),
      inletWords(primary, header),
    ];
    const { deviationMm } = match;
    return deviationMm === null
      ? { cells }
      : {
          cells,
          picture: {
            column: 1,
            draw: (at, size) => bar({ deviationMm, isJudged: match.verdict !== null }, scale, { at, size }),
          },
        };
  });
  const heading =
    report.targetMm === null ? 'No target yet' : `Off the target, scale ±${formatLength(scale.halfMm, style)}`;
  flow.space(1);
  drawTable(flow, {
    title: 'Primaries',
    columns: [
      { heading: 'Primary', share: 32, align: 'start' },
      { heading, share: 56, align: 'start' },
      { heading: 'Length', share: 20, align: 'end' },
      { heading: 'Off target', share: 30, align: 'start' },
      { heading: 'At the inlet', share: 46, align: 'start' },
    ],
    rows,
  });
}

/** `#3 Left front, long tube`, so that a view can say #3. */
export function titleOf({ primary, label }: SheetPrimary): string {
  return label === primary.name ? primaryTitle(primary.name) : `${label} ${primary.name}`;
}

function lengthWords({ match, rows }: SheetPrimary, { settings }: Header): string {
  return rows.length === 0 ? '\u2013' : formatLength(match.lengthMm, settings.display);
}

/** How the end stands to its inlet, or why that is not known. */
export function inletWords({ closure, rows }: SheetPrimary, { settings }: Header): string {
  if (closure.kind === 'known') {
    const say = closure.isClosed ? closedWords : closureWords;
    return say(closure.closure, settings.display);
  }
  if (rows.length === 0) return '\u2013';
  switch (closure.problem.kind) {
    case 'inletNotAssigned':
      return 'no inlet chosen';
    case 'portMissing':
      return 'port not measured';
    case 'inletNotMeasured':
      return 'inlet not measured';
    case 'pathUnknown':
      return 'a clocking is missing';
    default:
      return describeProblem(closure.problem);
  }
}

interface ChartScale {
  readonly halfMm: number;
  readonly minusMm: number;
  readonly plusMm: number;
}

/** Wide enough for every primary that is judged, and for the band; what is still being built may lie beyond. */
function chartScale({ header, primaries }: BuildSheet): ChartScale {
  const { minus, plus } = header.settings.tolerance;
  const [minusMm, plusMm] = [mmOf(minus), mmOf(plus)];
  const judgedMm = primaries.flatMap(({ match }) => (match.verdict === null ? [] : [Math.abs(match.deviationMm ?? 0)]));
  const halfMm = Math.max(2 * minusMm, 2 * plusMm, ...judgedMm, header.settings.display.kind === 'mm' ? 1 : 25.4 / 16);
  return { halfMm, minusMm, plusMm };
}

interface Box {
  readonly at: Point;
  readonly size: Point;
}

const TICK_MM = 1.6;

/** The band, the target in the middle, and a mark at the deviation; an arrow where it lies beyond the scale. */
function bar(
  { deviationMm, isJudged }: { readonly deviationMm: number; readonly isJudged: boolean },
  { halfMm, minusMm, plusMm }: ChartScale,
  { at: [left, top], size: [width, height] }: Box,
): readonly PageMark[] {
  const [zero, perMm] = [left + width / 2, (width / 2 - 2) / halfMm];
  const isBeyond = Math.abs(deviationMm) > halfMm * (1 + 1e-9);
  const share = isBeyond ? Math.sign(deviationMm) * halfMm : deviationMm;
  const [middle, end] = [top + height / 2, zero + share * perMm];
  const look = { widthMm: 0.7, dashMm: isJudged ? 0 : 1 };
  const tip: readonly Point[] = isBeyond
    ? [
        [end - Math.sign(share) * TICK_MM, middle - TICK_MM],
        [end, middle],
        [end - Math.sign(share) * TICK_MM, middle + TICK_MM],
      ]
    : [
        [end, middle - TICK_MM],
        [end, middle + TICK_MM],
      ];
  return [
    block([zero - minusMm * perMm, top + 0.4], [(minusMm + plusMm) * perMm, height - 0.8], 'pale'),
    line(
      [
        [zero, top + 0.4],
        [zero, top + height - 0.4],
      ],
      { widthMm: 0.3, ink: 'grey' },
    ),
    line(
      [
        [zero, middle],
        [end, middle],
      ],
      look,
    ),
    line(tip, { widthMm: 0.7 }),
  ];
}
