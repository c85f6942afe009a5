/** Rounds the figures of a move to what a saw and an angle gauge can do, and sees to it that the ends still meet. */

import { wrapDeg } from '../../path/vector.ts';
import { degreesOf, radiansOf } from '../../units/angle.ts';
import { type Length, MM_PER_INCH, mmOf } from '../../units/length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import { unitOf } from '../../units/length-style.ts';
import type { Setting } from '../problem/setting.ts';
import { type Variable, valueLimits } from '../problem/variable.ts';
import type { Screw } from '../turning/end-motion.ts';
import { type Aim, isMet, type Miss, missAt } from '../turning/miss.ts';
import { settle } from '../turning/settle.ts';

/** A fineness that lengths and angles are rounded to together. `per` is parts of a unit or of a degree. */
export interface SawStep {
  readonly lengthPer: number;
  readonly anglePer: number;
}

/**
 * Coarsest first, starting from what the header shows: 1/8 to 1/64 in, or 1 to 1/4 mm, with half degrees; then quarter and tenth
 * degrees, which is as fine as a digital angle gauge reads. A length is never rounded finer than 1/64 in or 1/4 mm.
 */
export function sawSteps(style: LengthStyle): readonly SawStep[] {
  const lengths = lengthSteps(style);
  const finest = lengths.at(-1) ?? 1;
  return [
    ...lengths.map((lengthPer) => ({ lengthPer, anglePer: 2 })),
    { lengthPer: finest, anglePer: 4 },
    { lengthPer: finest, anglePer: 10 },
  ];
}

function lengthSteps(style: LengthStyle): readonly number[] {
  switch (style.kind) {
    case 'fraction':
      return [8, 16, 32, 64].filter((per) => per >= style.per);
    case 'decimalInch':
      // Two hundredths and one hundredth of an inch: half and a quarter of a millimetre.
      return [50, 100];
    default:
      return style.places === 0 ? [1, 2, 4] : [2, 4];
  }
}

interface Choice {
  readonly value: number;
  readonly length: Length | null;
  readonly angleDeg: number | null;
}

/**
 * The values on the coarsest grid that still closes and lands in the band, nearest to the length aimed at; null when no grid does.
 *
 * On every grid all ways of rounding each value down or up are tried (a second way settles one value after another and
 * lets the rest make up for it), each judged by the exact path. With rounding off the values are kept as they are.
 */
export function roundToSaw(
  aim: Aim,
  { variables, values }: Pick<Exact, 'variables' | 'values'>,
  rounding: { readonly style: LengthStyle; readonly isOff: boolean },
): readonly Setting[] | null {
  const exact = { variables, values, screws: variables.map(({ screw }) => screw) };
  const { style } = rounding;
  if (rounding.isOff) {
    const choices = variables.map((variable, i) => asIs(variable, values[i] as number, unitOf(style)));
    const miss = missAt(
      aim,
      exact.screws,
      choices.map(({ value }) => value),
    );
    return isMet(miss, aim) ? asSettings(variables, choices) : null;
  }
  for (const step of sawSteps(style)) {
    const found = bestCorner(aim, exact, { step, style }) ?? oneByOne(aim, exact, { step, style });
    if (found !== null) return asSettings(variables, found);
  }
  return null;
}

function asSettings(variables: readonly Variable[], choices: readonly Choice[]): readonly Setting[] {
  return variables.map((variable, i) => ({ variable, ...(choices[i] as Choice) }));
}

function isLength({ kind }: Variable): boolean {
  return kind === 'length' || kind === 'letIn' || kind === 'takeOut';
}

function asIs(variable: Variable, value: number, unit: 'in' | 'mm'): Choice {
  const total = variable.present + value;
  if (isLength(variable)) {
    const length = { value: unit === 'in' ? total / MM_PER_INCH : total, unit };
    return { value, length, angleDeg: null };
  }
  const angleDeg = variable.kind === 'clocking' ? wrapDeg(degreesOf(total)) : degreesOf(total);
  return { value, length: null, angleDeg };
}

interface Exact {
  readonly variables: readonly Variable[];
  readonly screws: readonly Screw[];
  readonly values: ArrayLike<number>;
}

interface Grid {
  readonly step: SawStep;
  readonly style: LengthStyle;
}

/** Slack in units of the grid, so that what lies on it to rounding is not pushed to the next step. */
const ON_GRID = 1e-7;

/** What is less than the finest that a saw or an angle gauge can do is no change: nobody re-tacks a bend for a tenth of a degree. */
const LEAST_CHANGE_MM = { in: MM_PER_INCH / 64, mm: 0.25 } as const;
const LEAST_CHANGE_RAD = radiansOf(0.1);

/** The grid values on both sides of a value, and in place of those next to the present one the present one itself. */
function gridChoices(variable: Variable, value: number, grid: Grid): readonly Choice[] {
  const choices = onGrid(variable, value, grid);
  const { kind } = variable;
  if (kind === 'letIn' || kind === 'swap' || variable.isFixed) return choices;
  const least = isLength(variable) ? LEAST_CHANGE_MM[unitOf(grid.style)] : LEAST_CHANGE_RAD;
  // Half a millionth of slack: a change of just the least is one.
  const real = choices.filter((choice) => Math.abs(choice.value) > least * (1 - 1e-6));
  return real.length === choices.length ? choices : [asIs(variable, 0, unitOf(grid.style)), ...real];
}

/** The grid values on both sides of a value, within the variable's limits; one when it lies on the grid. */
function onGrid(variable: Variable, value: number, { step, style }: Grid): readonly Choice[] {
  if (variable.isFixed) return [{ value, length: null, angleDeg: null }];
  if (variable.low === variable.high) return [{ value, length: null, angleDeg: degreesOf(variable.high) }];
  const unit = unitOf(style);
  const perUnit = isLength(variable) ? step.lengthPer : step.anglePer;
  const total = variable.present + value;
  const inUnits = isLength(variable) ? (unit === 'in' ? total / MM_PER_INCH : total) : degreesOf(total);
  const low = Math.floor(inUnits * perUnit + ON_GRID);
  const high = Math.ceil(inUnits * perUnit - ON_GRID);
  const counts = low >= high ? [low] : [low, high];
  return counts.flatMap((count): readonly Choice[] => {
    const rounded = Number((count / perUnit).toFixed(6)) + 0;
    if (!isLength(variable)) {
      const angle = radiansOf(rounded);
      if (angle < variable.low - 1e-9 || angle > variable.high + 1e-9) return [];
      const angleDeg = variable.kind === 'clocking' ? wrapDeg(rounded) : rounded;
      return [{ value: angle - variable.present, length: null, angleDeg }];
    }
    const length: Length = { value: rounded, unit };
    const mm = mmOf(length);
    if (mm < variable.low - 1e-9 || mm > variable.high) return [];
    return [{ value: mm - variable.present, length, angleDeg: null }];
  });
}

/** How good a miss that meets the aim is; smaller is better. */
function badness({ gapMm, lengthMm }: Miss, { window }: Aim): number {
  return Math.abs(lengthMm - window.aimMm) + gapMm;
}

function bestCorner(aim: Aim, { variables, screws, values }: Exact, grid: Grid): readonly Choice[] | null {
  const choices = variables.map((variable, i) => gridChoices(variable, values[i] as number, grid));
  if (choices.some((list) => list.length === 0)) return null;
  const corners = choices.reduce((product, { length }) => product * length, 1);
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  const tried = new Float64Array(variables.length);
  for (let corner = 0; corner < corners; corner += 1) {
    let rest = corner;
    for (let i = 0; i < choices.length; i += 1) {
      const list = choices[i] as readonly Choice[];
      tried[i] = (list[rest % list.length] as Choice).value;
      rest = Math.floor(rest / list.length);
    }
    const miss = missAt(aim, screws, tried);
    if (!isMet(miss, aim) || badness(miss, aim) >= least) continue;
    [best, least] = [corner, badness(miss, aim)];
  }
  return best < 0 ? null : cornerOf(choices, best);
}

/** One choice of each list: the corner's number counts them up, the first fastest. */
function cornerOf(choices: readonly (readonly Choice[])[], corner: number): readonly Choice[] {
  let rest = corner;
  return choices.map((list) => {
    const choice = list[rest % list.length] as Choice;
    rest = Math.floor(rest / list.length);
    return choice;
  });
}

/** Fixes one value after another on the grid, turns first, while those still free make up for it. */
function oneByOne(aim: Aim, { variables, screws, values }: Exact, grid: Grid): readonly Choice[] | null {
  const order = variables.map((_, i) => i).sort((a, b) => weight(variables[b]) - weight(variables[a]));
  const { low, high } = valueLimits(variables);
  const picked: Choice[] = [];
  let now: ArrayLike<number> = values;
  for (const at of order) {
    const variable = variables[at] as Variable;
    const value = now[at] as number;
    const options = gridChoices(variable, value, grid);
    const nearest = [...options].sort((a, b) => Math.abs(a.value - value) - Math.abs(b.value - value))[0];
    if (nearest === undefined) return null;
    picked[at] = nearest;
    low[at] = nearest.value;
    high[at] = nearest.value;
    now = settle(aim, screws, now, { low, high }).values;
  }
  return isMet(missAt(aim, screws, now), aim) ? picked : null;
}

function weight(variable: Variable | undefined): number {
  if (variable === undefined || variable.isFixed) return 2;
  return isLength(variable) ? 0 : 1;
}
