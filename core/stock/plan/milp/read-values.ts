/** What the values of a solved plan say: which items are opened, how each is cut, and which joints stay whole. */

import { type Chosen, type ChosenUnit, legRunIndex } from '../chosen.ts';
import type { ArcColumn } from '../columns/arc-column.ts';
import type { Columns } from '../columns/columns.ts';
import { GOALS, type PlanGoals } from '../cut-plan.ts';
import type { CutJoint } from '../cut-problem.ts';
import type { PlanModel } from './plan-model.ts';
import { typeOfArc } from './whole-joints.ts';

/** @param values whole numbers, one a column of the model */
export function readValues(columns: Columns, model: PlanModel, values: readonly number[]): Chosen {
  const indexOfLeg = legRunIndex(columns);
  const legs = new Map<number, (readonly number[])[]>();
  const joints = new Map<string, (readonly CutJoint[])[]>();
  const arcs: ArcColumn[] = [];
  const units: ChosenUnit[] = [];
  model.meanings.forEach((meaning, at) => {
    for (let count = Math.round(values[at] ?? 0); count > 0; count -= 1) {
      if (meaning.kind === 'arc') arcs.push(meaning.arc);
      if (meaning.kind === 'leg') listed(legs, meaning.column.run).push(meaning.column.straights);
      if (meaning.kind === 'joint') listed(joints, meaning.joint.type).push(meaning.joint.joints);
      if (meaning.kind === 'stick') {
        units.push({ kind: 'stick', row: meaning.column.run, straights: meaning.column.straights });
      }
    }
  });
  for (const arc of arcs) {
    const cutLeg = (side: 0 | 1) => listed(legs, indexOfLeg(arc.legs[side])).shift() ?? [];
    const whole = typeOfArc(arc).flatMap((type) => listed(joints, type).shift() ?? []);
    units.push({ kind: 'bend', arc, legs: [cutLeg(0), cutLeg(1)], joints: jointsBySide(columns, arc, whole) });
  }
  return { units, goals: goalsOfValues(model, values) };
}

export function goalsOfValues(model: PlanModel, values: readonly number[]): PlanGoals {
  const sum = (costs: readonly number[]) =>
    costs.reduce((total, cost, at) => total + cost * Math.round(values[at] ?? 0), 0) + 0;
  const [shortage = 0, cost = 0, welds = 0, lost = 0] = GOALS.map((goal) => sum(model.costs[goal]));
  return { shortage, cost, welds, lost };
}

/** Two straights of other sizes than each other each go to the side that was cut for them. */
function jointsBySide(
  { sizes }: Columns,
  { joined }: ArcColumn,
  whole: readonly CutJoint[],
): readonly [CutJoint | null, CutJoint | null] {
  const free = [...whole];
  const take = (side: 0 | 1) => {
    const wanted = joined[side];
    if (wanted === null) return null;
    const at = free.findIndex(
      ({ straightId, bendId }) =>
        (sizes.straights[wanted.straight]?.ids.includes(straightId) ?? false) &&
        (sizes.bends[wanted.bend]?.ids.includes(bendId) ?? false),
    );
    return free.splice(at, 1)[0] ?? null;
  };
  const first = take(0);
  return [first, take(1)];
}

function listed<Key, Value>(map: Map<Key, Value[]>, key: Key): Value[] {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made: Value[] = [];
  map.set(key, made);
  return made;
}
