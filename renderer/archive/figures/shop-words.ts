/** What the shop's charts come to, in words, and the units of their axes. */

import * as d3 from 'd3';
import { formatLength, type LengthStyle, type LengthUnit, MM_PER_INCH } from '../../../core/index.ts';
import { countOf } from '../../ui/words/spoken.ts';
import type { TimedValue } from './chart-layout.ts';

/** Of counts and of whole feet or metres. */
export const COUNT_STEPS = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000] as const;

interface UnitStyle {
  readonly style: LengthStyle;
  /** Distances of ticks in mm. */
  readonly steps: readonly number[];
  readonly show: (mm: number) => string;
}

const INCHES: LengthStyle = { kind: 'fraction', per: 16 };
const MILLIMETRES: LengthStyle = { kind: 'mm', places: 1 };

/** How short lengths are shown here, where no header's own way counts. */
export const UNIT_STYLES: Readonly<Record<LengthUnit, UnitStyle>> = {
  in: {
    style: INCHES,
    steps: [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4, 8, 16, 32].map((inches) => inches * MM_PER_INCH),
    show: (mm) => formatLength(mm, INCHES),
  },
  mm: {
    style: MILLIMETRES,
    steps: [1, 2, 5, 10, 20, 50, 100, 200, 500],
    show: (mm) => formatLength(mm, MILLIMETRES),
  },
};

/** A shelf of tube is counted in feet or in metres. */
export const TUBE_UNITS = {
  in: { mm: 12 * MM_PER_INCH, name: 'feet', sign: 'ft', show: (feet: number) => `${d3.format(',.0f')(feet)} ft` },
  mm: { mm: 1000, name: 'metres', sign: 'm', show: (metres: number) => `${d3.format(',.0f')(metres)} m` },
} as const satisfies Readonly<Record<LengthUnit, unknown>>;

const NOTHING = 'Nothing is finished yet; the first finished header makes the first dot.';

/** @param single finished headers that have no spread, being of fewer than two primaries */
export function spreadFinding(spreads: readonly TimedValue[], single: number, show: (mm: number) => string): string {
  const without = single === 0 ? '' : ` ${countOf(single, 'header')} of fewer than two primaries left out.`;
  const last = spreads.at(-1);
  if (last === undefined) return single === 0 ? NOTHING : without.trim();
  if (spreads.length === 1) return `${oneHeader(single)}, with a spread of ${show(last.value)}.${without}`;
  const median = d3.median(spreads, ({ value }) => value) ?? 0;
  return `Median ${show(median)} over ${countOf(spreads.length, 'header')}; the last one ${show(last.value)}.${without}`;
}

/** @param others finished headers that the figure is not of */
function oneHeader(others: number): string {
  return others === 0 ? 'One finished header so far' : 'One finished header';
}

/** @param notKnown finished headers whose steps do not tell */
export function jointsFinding(joints: readonly TimedValue[], notKnown: number): string {
  const without = notKnown === 0 ? '' : ` Of ${countOf(notKnown, 'header')} it is not known.`;
  const last = joints.at(-1);
  if (last === undefined) return notKnown === 0 ? NOTHING : without.trim();
  if (joints.length === 1) return `${oneHeader(notKnown)}, with ${countOf(last.value, 'joint')} opened.${without}`;
  const median = d3.median(joints, ({ value }) => value) ?? 0;
  return `Median ${countOf(median, 'joint')} over ${countOf(joints.length, 'header')}; the last one ${last.value}.${without}`;
}

export function leftFinding(left: readonly TimedValue[], sign: string): string {
  const last = left.at(-1);
  if (last === undefined) return 'The shelf has never held anything yet.';
  const now = `${d3.format(',.1f')(last.value)} ${sign} now`;
  if (left.length === 1) return `${now}; it has changed on one day so far.`;
  const most = d3.max(left, ({ value }) => value) ?? 0;
  return `${now}, ${d3.format(',.1f')(most)} ${sign} at most.`;
}
