/** Names the pieces of chosen ways of cutting, and lays each opened stock item out. */

import type { Chosen, ChosenUnit } from '../chosen.ts';
import type { Columns } from '../columns/columns.ts';
import type { CutPlan, CutStock } from '../cut-plan.ts';
import { layOutBend, layOutStick } from './lay-out.ts';

/** Opened stock, and the pieces left over, which are short. */
export function nameAndLayOut(columns: Columns, { units }: Chosen): Pick<CutPlan, 'opened' | 'short'> {
  const { sizes, problem } = columns;
  const kept = new Set(
    units.flatMap((unit) =>
      unit.kind === 'stick'
        ? []
        : unit.joints.flatMap((joint) => (joint === null ? [] : [joint.straightId, joint.bendId])),
    ),
  );
  // Pieces of joints that stay whole are spoken for; of the others of a size any will do.
  const free = (all: readonly { readonly ids: readonly string[] }[]) =>
    all.map(({ ids }) => ids.filter((id) => !kept.has(id)));
  const names = { bends: free(sizes.bends), straights: free(sizes.straights) };
  const copies = new Map<string, number>();
  const opened = units.map((unit): CutStock => {
    const row = unit.kind === 'stick' ? problem.straightRows[unit.row] : problem.bendRows[unit.arc.row];
    if (row === undefined) throw new Error('a way of cutting names a stock row that is not there');
    const copy = (copies.get(row.id) ?? 0) + 1;
    copies.set(row.id, copy);
    const straights = (indexes: readonly number[]) =>
      indexes.map((size) => ({
        id: next(names.straights, size),
        lengthMm: sizes.straights[size]?.lengthMm ?? 0,
      }));
    if (unit.kind === 'stick' && row.kind === 'straight')
      return { rowId: row.id, copy, stretches: layOutStick(row, straights(unit.straights), problem.saw) };
    if (unit.kind !== 'bend' || row.kind !== 'bend') throw new Error('a bend is cut as if it were straight stock');
    const layout = {
      arc: unit.arc,
      bends: bendsInOrder(unit, columns, (size) => next(names.bends, size)),
      joined: [keptStraight(unit, 0, columns), keptStraight(unit, 1, columns)] as const,
      legs: [straights(unit.legs[0]), straights(unit.legs[1])] as const,
    };
    return { rowId: row.id, copy, stretches: layOutBend(row, layout, problem.saw) };
  });
  const short = [...names.bends, ...names.straights].flat();
  return { opened, short };
}

/** The next piece of a size; that there is one is what a search has made sure of. */
function next(names: readonly string[][], size: number): string {
  const id = names[size]?.shift();
  if (id === undefined) throw new Error('more pieces of a size were cut than are wanted');
  return id;
}

type BendUnit = Extract<ChosenUnit, { kind: 'bend' }>;

/** A bend that keeps a leg lies at that leg's end of the arc; the others follow the first, the largest first. */
function bendsInOrder({ arc, joints }: BendUnit, { sizes }: Columns, nameOf: (size: number) => string) {
  const [first, other] = joints;
  const rest = [...arc.bends];
  const bend = (size: number, id: string) => ({ id, angleDeg: sizes.bends[size]?.angleDeg ?? 0 });
  const take = (side: 0 | 1) => {
    const [joint, joined] = [joints[side], arc.joined[side]];
    if (joint === null || joined === null) return [];
    // One bend that keeps both legs is one bend.
    if (side === 1 && first !== null && first.bendId === other?.bendId) return [];
    rest.splice(rest.indexOf(joined.bend), 1);
    return [bend(joined.bend, joint.bendId)];
  };
  const [atFirst, atOther] = [take(0), take(1)];
  const between = rest
    .toSorted((a, b) => (sizes.bends[b]?.angleDeg ?? 0) - (sizes.bends[a]?.angleDeg ?? 0))
    .map((size) => bend(size, nameOf(size)));
  return [...atFirst, ...between, ...atOther];
}

function keptStraight({ arc, joints }: BendUnit, side: 0 | 1, { sizes }: Columns) {
  const [joint, joined] = [joints[side], arc.joined[side]];
  if (joint === null || joined === null) return null;
  return { id: joint.straightId, lengthMm: sizes.straights[joined.straight]?.lengthMm ?? 0 };
}
