/** Edits on where primaries end: collectors by their pattern, single inlets, and which primary goes into which. */

import { closureAlong } from '../header/default-closure.ts';
import type { Collector, Header, Inlet, Pose, Primary } from '../header/header.ts';
import { labelName } from '../header/names.ts';
import { type InletLayout, inletPoses } from '../path/ends/port-row.ts';
import type { PathProblem } from '../path/path-problem.ts';
import { type Result, success } from '../result.ts';
import { inches, type LengthUnit, millimetres } from '../units/length.ts';
import { type BatchEdit, batchOf, type Edit, type SingleEdit } from './edit.ts';

/** An inlet below and outboard of the origin that points down: where one starts that is still to be measured. */
export function firstInletPose(unit: LengthUnit): Pose {
  const at = (value: number) => ({ value, unit });
  const [out, below] = unit === 'in' ? [6, -12] : [150, -300];
  return { at: { x: at(0), y: at(out), z: at(below) }, direction: { x: 0, y: 0, z: -1 }, up: { x: 1, y: 0, z: 0 } };
}

/** The inlet that a primary must end in; null for none. */
export function assignInletEdit(primary: Primary, inletId: string | null): Edit {
  return assign(primary.id, inletId);
}

function assign(primaryId: string, inletId: string | null): SingleEdit {
  return { kind: 'setPrimary', primaryId, set: { inletId } };
}

export interface CollectorPattern {
  readonly name: string;
  readonly layout: InletLayout;
  /** These end in its inlets, in order; those beyond the number of inlets are left as they are. */
  readonly primaryIds: readonly string[];
}

const NO_SLIP: Readonly<Record<LengthUnit, Inlet['slip']>> = {
  in: { deeper: inches(0), shallower: inches(0) },
  mm: { deeper: millimetres(0), shallower: millimetres(0) },
};

/** A collector with all its inlets, and the primaries that end in them, as one step. */
export function collectorPatternEdit(
  header: Header,
  pattern: CollectorPattern,
  newId: () => string,
): Result<BatchEdit, PathProblem> {
  const poses = inletPoses(pattern.layout);
  if (!poses.ok) return poses;
  const slip = NO_SLIP[pattern.layout.centre.at.x.unit];
  const inlets = poses.value.map(
    (pose, index): Inlet => ({ id: newId(), name: String(index + 1), place: { kind: 'pose', pose }, slip }),
  );
  const collector: Collector = { id: newId(), name: pattern.name, inlets };
  const assigned = inlets.flatMap(({ id }, index) => {
    const primaryId = pattern.primaryIds[index];
    return primaryId === undefined ? [] : [assign(primaryId, id)];
  });
  const add: SingleEdit = { kind: 'addCollector', collector, at: header.collectors.length };
  return success(batchOf(`collector ${labelName(pattern.name)}`, [add, ...assigned]));
}

/** One more inlet on the last collector, or in a collector of its own where there is none yet. */
export function addInletEdit(header: Header, place: Inlet['place'], newId: () => string): Edit {
  const collector = header.collectors.at(-1);
  const unit = place?.kind === 'pose' ? place.pose.at.x.unit : 'in';
  const inlet: Inlet = { id: newId(), name: String((collector?.inlets.length ?? 0) + 1), place, slip: NO_SLIP[unit] };
  if (collector !== undefined) return withInlets(collector, [...collector.inlets, inlet]);
  return { kind: 'addCollector', collector: { id: newId(), name: 'Collector', inlets: [inlet] }, at: 0 };
}

/** The inlet as it shall be, in the place of the one with its id. */
export function replaceInletEdit(collector: Collector, inlet: Inlet): ReplaceCollector {
  return withInlets(
    collector,
    collector.inlets.map((other) => (other.id === inlet.id ? inlet : other)),
  );
}

/** How far the tube may sit deeper or less deep in an inlet; a closure that nobody has typed goes along (see `defaultClosure`). */
export function setSlipEdit(header: Header, collector: Collector, inlet: Inlet): Edit {
  const change = replaceInletEdit(collector, inlet);
  const collectors = header.collectors.map((other) => (other.id === change.collector.id ? change.collector : other));
  const set = closureAlong(header, { collectors });
  if (set.closure === undefined) return change;
  return batchOf(`slip of inlet ${labelName(inlet.name)}`, [change, { kind: 'setSettings', set }]);
}

/** Takes an inlet away, after freeing the primaries that end in it; the collector goes with its last one. */
export function removeInletEdit(header: Header, collector: Collector, inletId: string): BatchEdit {
  const free = header.primaries.filter((primary) => primary.inletId === inletId).map(({ id }) => assign(id, null));
  const inlets = collector.inlets.filter(({ id }) => id !== inletId);
  const change: SingleEdit =
    inlets.length === 0 ? { kind: 'removeCollector', collectorId: collector.id } : withInlets(collector, inlets);
  return batchOf('remove inlet', [...free, change]);
}

type ReplaceCollector = Extract<SingleEdit, { readonly kind: 'replaceCollector' }>;

function withInlets(collector: Collector, inlets: readonly Inlet[]): ReplaceCollector {
  return { kind: 'replaceCollector', collector: { ...collector, inlets } };
}
