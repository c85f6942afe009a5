/** Where the lengths that a primary can have stand on a line: ranges, the target, and the other primaries. */

import * as d3 from 'd3';
import {
  finenessMm,
  formatLengthBare,
  type LengthRange,
  type LengthStyle,
  type LengthUnit,
  MM_PER_INCH,
  type ReachableLengths,
  unitOf,
} from '../../../core/index.ts';

export interface ReachBar {
  readonly x: number;
  readonly width: number;
}

/** One or more primaries of nearly the same length. */
export interface LengthMark {
  readonly key: string;
  readonly x: number;
  readonly text: string;
}

export interface ReachLayout {
  readonly lowMm: number;
  readonly highMm: number;
  readonly x: (mm: number) => number;
  /** The length at a place, on the fineness shown and within the line. */
  readonly lengthAt: (x: number) => number;
  /** Of the ticks. */
  readonly unit: LengthUnit;
  readonly ticks: readonly { readonly x: number; readonly text: string }[];
  readonly two: readonly ReachBar[];
  /** Null: not looked at yet. */
  readonly three: readonly ReachBar[] | null;
  readonly marks: readonly LengthMark[];
}

/** Left of the line stand the words. */
const LEFT = 62;
const RIGHT = 14;
/** Marks that are nearer than this share one place. */
const APART = 16;
const TICKS = 5;

export interface KnownLength {
  readonly primaryId: string;
  /** Short: a number. */
  readonly label: string;
  readonly lengthMm: number;
}

interface Drawn {
  readonly reach: ReachableLengths;
  readonly targetMm: number | null;
  readonly others: readonly KnownLength[];
  readonly style: LengthStyle;
}

/** @param width of the drawing in its own units, 160 at least */
export function reachLayout({ reach, targetMm, others, style }: Drawn, width: number): ReachLayout {
  const [lowMm, highMm] = rangeOf(reach, targetMm);
  const x = d3.scaleLinear([lowMm, highMm], [LEFT, Math.max(160, width) - RIGHT]);
  const perMm = unitOf(style) === 'in' ? 1 / MM_PER_INCH : 1;
  const bars = (ranges: readonly LengthRange[]): readonly ReachBar[] =>
    ranges
      .filter((range) => range.highMm >= lowMm && range.lowMm <= highMm)
      .map((range) => {
        const from = x(Math.max(lowMm, range.lowMm));
        return { x: from, width: Math.max(1, x(Math.min(highMm, range.highMm)) - from) };
      });
  return {
    lowMm,
    highMm,
    x: (mm) => x(Math.min(highMm, Math.max(lowMm, mm))),
    lengthAt: (place) => snapped(x.invert(place), { lowMm, highMm, style }),
    unit: unitOf(style),
    ticks: d3
      .ticks(lowMm * perMm, highMm * perMm, TICKS)
      .map((count) => ({ x: x(count / perMm), text: formatLengthBare(count / perMm, style) })),
    two: bars(reach.two),
    three: reach.three === null ? null : bars(reach.three),
    marks: marksOf(
      others.filter(({ lengthMm }) => lengthMm >= lowMm && lengthMm <= highMm),
      x,
    ),
  };
}

/** From a little under the least that there is to as far as was looked, and on to the target where that is longer. */
function rangeOf({ leastMm, toMm, two, three }: ReachableLengths, targetMm: number | null): readonly [number, number] {
  const lows = [leastMm ?? toMm, ...[...two, ...(three ?? [])].map(({ lowMm }) => lowMm), targetMm ?? toMm];
  const lowMm = Math.min(...lows);
  const highMm = Math.max(toMm, targetMm ?? 0);
  const roomMm = Math.max(1, 0.04 * (highMm - lowMm));
  return [Math.max(0, lowMm - roomMm), highMm + roomMm];
}

interface Line {
  readonly lowMm: number;
  readonly highMm: number;
  readonly style: LengthStyle;
}

/** Part of a step by which an end of the line may miss it to rounding. */
const ON_STEP = 1e-6;

/** A length on the fineness shown, within the line. */
function snapped(mm: number, { lowMm, highMm, style }: Line): number {
  const stepMm = finenessMm(style);
  const least = Math.ceil(lowMm / stepMm - ON_STEP);
  const most = Math.floor(highMm / stepMm + ON_STEP);
  const within = Math.min(most, Math.max(least, Math.round(mm / stepMm)));
  return within * stepMm;
}

function marksOf(others: readonly KnownLength[], x: (mm: number) => number): readonly LengthMark[] {
  const groups: { x: number; members: KnownLength[] }[] = [];
  for (const one of d3.sort(others, ({ lengthMm }) => lengthMm)) {
    const last = groups.at(-1);
    if (last !== undefined && x(one.lengthMm) - last.x < APART) last.members.push(one);
    else groups.push({ x: x(one.lengthMm), members: [one] });
  }
  return groups.map(({ x: at, members }) => ({
    key: members.map(({ primaryId }) => primaryId).join(' '),
    x: at,
    text: d3
      .sort(
        members.map(({ label }) => label),
        (label) => Number(label),
      )
      .join(', '),
  }));
}

/** Steps of the fineness shown that a key goes; whole inches or centimetres for a page. */
export function lengthAfterKey(mm: number, key: string, line: Line): number | null {
  const stepMm = finenessMm(line.style);
  const pageMm = unitOf(line.style) === 'in' ? MM_PER_INCH : 10;
  const by = new Map([
    ['ArrowRight', stepMm],
    ['ArrowUp', stepMm],
    ['ArrowLeft', -stepMm],
    ['ArrowDown', -stepMm],
    ['PageUp', pageMm],
    ['PageDown', -pageMm],
    ['Home', Number.NEGATIVE_INFINITY],
    ['End', Number.POSITIVE_INFINITY],
  ]).get(key);
  if (by === undefined) return null;
  return snapped(Math.min(line.highMm, Math.max(line.lowMm, mm + by)), line);
}
