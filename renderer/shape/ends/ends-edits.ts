/** The edits behind ports, inlets and their patterns. */

import {
  type BatchEdit,
  type Collector,
  type Edit,
  type Header,
  type Inlet,
  type InletLayout,
  inches,
  inletPoses,
  type LengthUnit,
  millimetres,
  type PathProblem,
  type PortRow,
  type Pose,
  type Primary,
  portRow,
  type Result,
  type SingleEdit,
  success,
} from '../../../core/index.ts';

/** A port at the origin of the header frame that points outboard. */
export function firstPort(unit: LengthUnit): Pose {
  const zero = { value: 0, unit };
  return { at: { x: zero, y: zero, z: zero }, direction: { x: 0, y: 1, z: 0 }, up: { x: 0, y: 0, z: 1 } };
}

/** An inlet a foot below and half a foot out from the origin that points down. */
export function firstInletPose(unit: LengthUnit): Pose {
  const at = (value: number) => ({ value, unit });
  const [out, below] = unit === 'in' ? [6, -12] : [150, -300];
  return { at: { x: at(0), y: at(out), z: at(below) }, direction: { x: 0, y: 0, z: -1 }, up: { x: 1, y: 0, z: 0 } };
}

export function setPortEdit(primary: Primary, port: Pose | null): Edit {
  return { kind: 'setPrimary', primaryId: primary.id, set: { port } };
}

export function assignInletEdit(primary: Primary, inletId: string | null): Edit {
  return { kind: 'setPrimary', primaryId: primary.id, set: { inletId } };
}

/** The ports of the primaries in their order, as one step; as many as the row has. */
export function portRowEdit(primaries: readonly Primary[], row: PortRow): Result<BatchEdit, PathProblem> {
  const poses = portRow(row);
  if (!poses.ok) return poses;
  const edits = poses.value.flatMap((port, index): readonly SingleEdit[] => {
    const primary = primaries[index];
    return primary === undefined ? [] : [{ kind: 'setPrimary', primaryId: primary.id, set: { port } }];
  });
  return success({ kind: 'batch', label: 'row of ports', edits });
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
  const assign = inlets.flatMap(({ id }, index): readonly SingleEdit[] => {
    const primaryId = pattern.primaryIds[index];
    return primaryId === undefined ? [] : [{ kind: 'setPrimary', primaryId, set: { inletId: id } }];
  });
  const add: SingleEdit = { kind: 'addCollector', collector, at: header.collectors.length };
  return success({ kind: 'batch', label: `collector ${pattern.name}`.slice(0, 100), edits: [add, ...assign] });
}

/** One inlet, in a collector of its own where there is none yet. */
export function addInletEdit(header: Header, place: Inlet['place'], newId: () => string): Edit {
  const collector = header.collectors.at(-1);
  const unit = place?.kind === 'pose' ? place.pose.at.x.unit : 'in';
  const inlet: Inlet = { id: newId(), name: String((collector?.inlets.length ?? 0) + 1), place, slip: NO_SLIP[unit] };
  if (collector !== undefined) {
    return { kind: 'replaceCollector', collector: { ...collector, inlets: [...collector.inlets, inlet] } };
  }
  return { kind: 'addCollector', collector: { id: newId(), name: 'Collector', inlets: [inlet] }, at: 0 };
}

export function replaceInletEdit(collector: Collector, inlet: Inlet): Edit {
  const inlets = collector.inlets.map((other) => (other.id === inlet.id ? inlet : other));
  return { kind: 'replaceCollector', collector: { ...collector, inlets } };
}

/** Takes an inlet away, after clearing what ends in it; the collector goes with its last one. */
export function removeInletEdit(header: Header, collector: Collector, inletId: string): BatchEdit {
  const clear = header.primaries
    .filter((primary) => primary.inletId === inletId)
    .map((primary): SingleEdit => ({ kind: 'setPrimary', primaryId: primary.id, set: { inletId: null } }));
  const inlets = collector.inlets.filter(({ id }) => id !== inletId);
  const change: SingleEdit =
    inlets.length === 0
      ? { kind: 'removeCollector', collectorId: collector.id }
      : { kind: 'replaceCollector', collector: { ...collector, inlets } };
  return { kind: 'batch', label: 'remove inlet', edits: [...clear, change] };
}
