/** Edits on where primaries start: their ports, one by one or a row of them. */

import type { Pose, Primary } from '../header/header.ts';
import { type PortRow, portRow } from '../path/ends/port-row.ts';
import type { PathProblem } from '../path/path-problem.ts';
import { type Result, success } from '../result.ts';
import type { LengthUnit } from '../units/length.ts';
import { type BatchEdit, batchOf, type Edit, type SingleEdit } from './edit.ts';

/** A port at the origin of the header frame that points outboard: where one starts that is still to be measured. */
export function firstPort(unit: LengthUnit): Pose {
  const zero = { value: 0, unit };
  return { at: { x: zero, y: zero, z: zero }, direction: { x: 0, y: 1, z: 0 }, up: { x: 0, y: 0, z: 1 } };
}

/** Null takes the port away. */
export function setPortEdit(primary: Primary, port: Pose | null): Edit {
  return { kind: 'setPrimary', primaryId: primary.id, set: { port } };
}

/** The ports of the primaries in their order, as one step; as many as the row has. */
export function portRowEdit(primaries: readonly Primary[], row: PortRow): Result<BatchEdit, PathProblem> {
  const poses = portRow(row);
  if (!poses.ok) return poses;
  const edits = poses.value.flatMap((port, index): readonly SingleEdit[] => {
    const primary = primaries[index];
    return primary === undefined ? [] : [{ kind: 'setPrimary', primaryId: primary.id, set: { port } }];
  });
  return success(batchOf('row of ports', edits));
}
