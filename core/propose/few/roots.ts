/** Every root of a function of one number that may be undefined in parts of its range. */

/** Where the function stands at a place; only places where it is defined are kept. */
interface Sample {
  readonly at: number;
  readonly value: number;
}

const EDGE_HALVINGS = 30;
const MOST_STEPS = 80;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Golden sections of a bottom: 0.618 to this power is 1e-5 of the two cells about it. */
const BOTTOM_STEPS = 24;

/**
 * The roots of `f` between 0 and 1, rising. `f` gives NaN where it is not defined.
 *
 * Looked at in `cells` places; where it stops being defined between two of them the edge is sought by halving, and counts as a place. Each
 * change of sign brackets a root. Where it comes nearer to zero and goes away again without a change of sign, its bottom is
 * sought by golden section: two roots may lie beside it. A jump over zero comes out as a root, so the caller looks at
 * the value there. Roots that lie closer together than a cell with no bottom between the places may be missed.
 */
export function rootsOf(f: (at: number) => number, cells: number): readonly number[] {
  const roots: number[] = [];
  for (const run of definedRuns(f, cells)) {
    for (const [i, sample] of run.entries()) {
      const next = run[i + 1];
      if (sample.value === 0) roots.push(sample.at);
      else if (next !== undefined && next.value !== 0 && sample.value < 0 !== next.value < 0) {
        roots.push(between(f, sample, next));
      }
      const bottom = bottomAbout(f, run[i - 1], sample, next);
      if (bottom !== null) roots.push(between(f, run[i - 1] as Sample, bottom), between(f, bottom, next as Sample));
    }
  }
  return roots.sort((a, b) => a - b);
}

/** Stretches without a gap, each with its edges. */
function definedRuns(f: (at: number) => number, cells: number): readonly (readonly Sample[])[] {
  const runs: Sample[][] = [];
  let run: Sample[] | null = null;
  let before = Number.NaN;
  for (let i = 0; i < cells; i += 1) {
    const at = (i + 0.5) / cells;
    const value = f(at);
    if (Number.isNaN(value)) {
      if (run !== null) run.push(edge(f, before, at));
      run = null;
    } else {
      if (run === null) {
        run = i === 0 ? [] : [edge(f, at, before)];
        runs.push(run);
      }
      run.push({ at, value });
    }
    before = at;
  }
  return runs;
}

/** The last place towards `outside` where the function is defined. */
function edge(f: (at: number) => number, inside: number, outside: number): Sample {
  let [defined, undefinedAt] = [inside, outside];
  let value = f(inside);
  for (let halving = 0; halving < EDGE_HALVINGS; halving += 1) {
    const middle = (defined + undefinedAt) / 2;
    const there = f(middle);
    if (Number.isNaN(there)) undefinedAt = middle;
    else [defined, value] = [middle, there];
  }
  return { at: defined, value };
}

/** A place beyond zero near `sample`, which is nearer to zero than its neighbours on the same side; null when there is none. */
function bottomAbout(
  f: (at: number) => number,
  before: Sample | undefined,
  sample: Sample,
  after: Sample | undefined,
): Sample | null {
  if (before === undefined || after === undefined) return null;
  const side = Math.sign(sample.value);
  if (side === 0 || Math.sign(before.value) !== side || Math.sign(after.value) !== side) return null;
  if (side * before.value < side * sample.value || side * after.value < side * sample.value) return null;
  let [low, high] = [before.at, after.at];
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let [atLeft, atRight] = [side * f(left), side * f(right)];
  for (let step = 0; step < BOTTOM_STEPS; step += 1) {
    if (atLeft < 0) return { at: left, value: side * atLeft };
    if (atRight < 0) return { at: right, value: side * atRight };
    if (atLeft < atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = side * f(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = side * f(right);
    }
  }
  return null;
}

/** The root between two places of different sign: false position with the figure of an end that stays halved (the Illinois rule). */
function between(f: (at: number) => number, one: Sample, other: Sample): number {
  let { at: low, value: atLow } = one;
  let { at: high, value: atHigh } = other;
  let kept = 0;
  for (let step = 0; step < MOST_STEPS && Math.abs(high - low) > 1e-15; step += 1) {
    const share = atLow / (atLow - atHigh);
    const at = step % 8 === 7 ? (low + high) / 2 : low + (high - low) * share;
    const value = f(at);
    if (value === 0 || Number.isNaN(value)) return at;
    if (value < 0 === atLow < 0) {
      [low, atLow] = [at, value];
      if (kept === 1) atHigh /= 2;
      kept = 1;
    } else {
      [high, atHigh] = [at, value];
      if (kept === -1) atLow /= 2;
      kept = -1;
    }
    if (Math.abs(value) < 1e-11) return at;
  }
  return (low + high) / 2;
}
