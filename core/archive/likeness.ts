/** How alike two headers are, so that the finished one nearest to the one in hand comes first. */

import type { Header } from '../header/header.ts';
import { buildFigures } from '../length/build-figures.ts';
import { formatLength } from '../units/format-length.ts';
import { mmOf } from '../units/length.ts';
import { finerStyle, type LengthStyle } from '../units/length-style.ts';

/** What of a header makes it like another. */
export interface LikenessFigures {
  readonly material: string;
  readonly odMm: number;
  readonly wallMm: number;
  readonly primaryCount: number;
  /** Zero: it has no target yet. */
  readonly targetMm: number;
}

/** An eighth of an inch: tube sizes follow one another by about that (common practice). */
const OD_STEP_MM = 3.175;
/** About two sheet gauges. */
const WALL_STEP_MM = 1;
const OTHER_MATERIAL = 1;
/** Part of the target wanted that counts as much as one size of tube. */
const LENGTH_STEP = 0.05;
/** Figures of the same tube typed in inches and in millimetres. */
const SAME_MM = 0.05;

/**
 * How far `other` is from `wanted`: 0 for the same figures, more for less alike. The sum of
 * - tube: the difference in OD in steps of 1/8 in, that in wall in steps of 1 mm, and 1 where the material is another;
 * - number: 1 for each primary more or fewer;
 * - length: the difference in target in steps of 5 % of the target wanted; nothing while there is none.
 *
 * So a tube one size off counts as much as a primary more, or as a target 5 % off. All figures in mm, zero or more; the distance is
 * finite and not negative. Names of materials differ whatever their case.
 */
export function likenessDistance(wanted: LikenessFigures, other: LikenessFigures): number {
  const tube =
    Math.abs(other.odMm - wanted.odMm) / OD_STEP_MM +
    Math.abs(other.wallMm - wanted.wallMm) / WALL_STEP_MM +
    (isSameMaterial(wanted, other) ? 0 : OTHER_MATERIAL);
  const number = Math.abs(other.primaryCount - wanted.primaryCount);
  const lengthStepMm = Math.max(wanted.targetMm * LENGTH_STEP, SAME_MM);
  const length = wanted.targetMm > 0 ? Math.abs(other.targetMm - wanted.targetMm) / lengthStepMm : 0;
  return tube + number + length;
}

export function likenessFigures(header: Header): LikenessFigures {
  const { tube, primaryCount, targetMm } = buildFigures(header);
  return { material: tube.material, odMm: mmOf(tube.od), wallMm: mmOf(tube.wall), primaryCount, targetMm };
}

/** In what `other` differs, in words: "same tube, 2 primaries more, 3/4" shorter". */
export function describeLikeness(wanted: LikenessFigures, other: LikenessFigures, style: LengthStyle): string {
  const length = (mm: number) => formatLength(mm, style);
  const isSameSize = Math.abs(other.odMm - wanted.odMm) < SAME_MM && Math.abs(other.wallMm - wanted.wallMm) < SAME_MM;
  const tube = isSameSize
    ? isSameMaterial(wanted, other)
      ? 'same tube'
      : `same size in ${other.material}`
    : `${length(other.odMm)} x ${formatLength(other.wallMm, finerStyle(style))} ${other.material}`;
  return [tube, numberWords(other.primaryCount - wanted.primaryCount), lengthWords(wanted, other, length)]
    .filter((words) => words !== '')
    .join(', ');
}

function numberWords(by: number): string {
  if (by === 0) return 'as many primaries';
  const count = Math.abs(by);
  return `${count} ${count === 1 ? 'primary' : 'primaries'} ${by > 0 ? 'more' : 'fewer'}`;
}

function lengthWords(wanted: LikenessFigures, other: LikenessFigures, length: (mm: number) => string): string {
  if (wanted.targetMm === 0 || other.targetMm === 0) return '';
  const byMm = other.targetMm - wanted.targetMm;
  const text = length(Math.abs(byMm));
  return text === length(0) ? 'same length' : `${text} ${byMm > 0 ? 'longer' : 'shorter'}`;
}

function isSameMaterial(a: LikenessFigures, b: LikenessFigures): boolean {
  return a.material === b.material || a.material.trim().toLowerCase() === b.material.trim().toLowerCase();
}
