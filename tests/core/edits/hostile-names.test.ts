/** Whatever things are called, every builder makes an edit that the schema takes and that applies. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import { mirrorBank, mirroredCopy } from '../../../core/edits/bank-edits.ts';
import {
  addInletEdit,
  assignInletEdit,
  collectorPatternEdit,
  firstInletPose,
  removeInletEdit,
  replaceInletEdit,
  setSlipEdit,
} from '../../../core/edits/collector-edits.ts';
import { describeEdit } from '../../../core/edits/describe-edit.ts';
import { batchOf, type Edit } from '../../../core/edits/edit.ts';
import { editSchema } from '../../../core/edits/edit-schema.ts';
import {
  finishHeaderEdit,
  renameHeaderEdit,
  setClosureEdit,
  setEngineEdit,
  setSettingsEdit,
  setToleranceEdit,
  setTolerancesEdit,
  setTubeEdit,
} from '../../../core/edits/header-edits.ts';
import { mendEdit, reclockEdit } from '../../../core/edits/mend-edits.ts';
import {
  addObstacleEdit,
  OBSTACLE_KINDS,
  removeObstacleEdit,
  replaceObstacleEdit,
} from '../../../core/edits/obstacle-edits.ts';
import {
  addPiecesEdit,
  duplicatePiecesEdit,
  movePiecesEdit,
  removePiecesEdit,
  replacePieceEdit,
  replaceRestEdit,
  shiftPiecesEdit,
} from '../../../core/edits/piece-edits.ts';
import { cutPiecesEdit, freeOffer, setLockedEdit, setStateEdit } from '../../../core/edits/piece-state-edits.ts';
import { firstPort, portRowEdit, setPortEdit } from '../../../core/edits/port-edits.ts';
import {
  addPartsEdit,
  addPrimariesEdit,
  addPrimaryEdit,
  duplicatePrimaryEdit,
  movePrimaryEdit,
  removePrimaryEdit,
  renamePrimaryEdit,
  setMeasurementEdit,
} from '../../../core/edits/primary-edits.ts';
import { tableEdit } from '../../../core/edits/table-edits.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Collector, Header, Obstacle, Piece, Primary } from '../../../core/header/header.ts';
import { nameSchema } from '../../../core/header/schema.ts';
import { suggestMoves } from '../../../core/moves/suggest-moves.ts';
import { comparePrimaries } from '../../../core/path/banks/compare-primaries.ts';
import { VEHICLE_MIDDLE } from '../../../core/path/banks/mirror.ts';
import { jointTurnsToInlet } from '../../../core/path/ends/single-joint.ts';
import { inches } from '../../../core/units/length.ts';
import { hostileNameArbitrary } from '../../generators/hostile-names.ts';

interface Cast {
  readonly header: Header;
  readonly primary: Primary;
  readonly other: Primary;
  readonly collector: Collector;
  readonly obstacle: Obstacle;
  readonly name: string;
  readonly newId: () => string;
}

/** The demo with everything in it called by the names given. */
function castOf([name, ...names]: readonly string[]): Cast {
  const called = (index: number) => names[index % names.length] ?? name ?? '';
  const demo = demoHeader('demo');
  const box: Obstacle = {
    kind: 'box',
    id: 'box',
    name: called(1),
    corner: { x: inches(20), y: inches(20), z: inches(20) },
    opposite: { x: inches(21), y: inches(21), z: inches(21) },
  };
  const header: Header = {
    ...demo,
    name: called(0),
    settings: { ...demo.settings, tube: { ...demo.settings.tube, material: called(2) } },
    primaries: demo.primaries.map((primary, index) => ({ ...primary, name: called(index) })),
    collectors: demo.collectors.map((collector) => ({
      ...collector,
      name: called(3),
      inlets: collector.inlets.map((inlet, index) => ({ ...inlet, name: called(index) })),
    })),
    obstacles: [box],
  };
  const [primary, other] = header.primaries;
  const [collector] = header.collectors;
  if (primary === undefined || other === undefined || collector === undefined) throw new Error('the demo has them');
  let made = 0;
  const newId = () => `new-${made++}`;
  return { header, primary, other, collector, obstacle: box, name: name ?? '', newId };
}

const foundValue = <Value>(result: { readonly ok: true; readonly value: Value } | { readonly ok: false }): Value => {
  if (!result.ok) throw new Error('refused');
  return result.value;
};

const PATTERN = {
  pattern: 'square',
  count: 4,
  od: inches(1.75),
  gap: inches(0),
  centre: firstInletPose('in'),
} as const;
const LRA = 'length_mm,rotation_deg,angle_deg,clr_mm\n100,0,90,76\n50,,,\n';
const XYZ = 'x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n0,100,0,76\n200,100,0,\n';

function firstMending(primary: Primary, other: Primary): Edit | null {
  const comparison = foundValue(comparePrimaries(primary, other));
  const [difference] = comparison.differences;
  return difference === undefined ? null : mendEdit({ reference: primary, other, comparison }, difference, 'mended');
}

function fresh({ pieces }: Primary, newId: () => string): readonly Piece[] {
  return pieces.map((piece) => ({ ...piece, id: newId() }));
}

/** Every builder of edits, as the program calls it. */
const BUILDERS: Readonly<Record<string, (cast: Cast) => Edit | null>> = {
  addPieces: ({ primary, newId }) => addPiecesEdit(primary, fresh(primary, newId), 1),
  removePieces: ({ primary }) =>
    removePiecesEdit(
      primary,
      primary.pieces.slice(1).map(({ id }) => id),
    ),
  movePieces: ({ primary }) => movePiecesEdit(primary, ['piece-1-1', 'piece-1-2'], primary.pieces.length),
  shiftPieces: ({ primary }) => shiftPiecesEdit(primary, ['piece-1-1'], 1),
  duplicatePieces: ({ primary, newId }) => duplicatePiecesEdit(primary, ['piece-1-1', 'piece-1-2'], newId),
  replacePiece: ({ primary }) => replacePieceEdit(primary, { ...(primary.pieces[0] as Piece), note: 'x' }),
  replaceRest: ({ primary, newId }) => replaceRestEdit(primary, 1, fresh(primary, newId)),
  setState: ({ primary }) => setStateEdit(primary, primary.pieces, 'welded'),
  cutPieces: ({ header }) => {
    const asPlanned = (primary: Primary): Primary => ({
      ...primary,
      pieces: primary.pieces.map((piece) => ({ ...piece, state: 'planned' })),
    });
    return cutPiecesEdit({ ...header, primaries: header.primaries.map(asPlanned) }, () => true);
  },
  lock: ({ primary }) => setLockedEdit(primary, primary.pieces, true),
  free: ({ primary }) =>
    freeOffer(primary, { lockedPieces: primary.pieces.map((_, index) => index), weldedPieces: [0], weldedJoints: [2] })
      ?.edit ?? null,
  addPrimary: ({ header, newId }) => addPrimaryEdit(header, newId()),
  addPrimaries: ({ header, newId }) => addPrimariesEdit(header, [newId(), newId()]),
  duplicatePrimary: ({ header, newId }) => duplicatePrimaryEdit(header, 'primary-2', newId),
  setMeasurement: ({ primary }) =>
    setMeasurementEdit(primary, 'centreline', { kind: 'centreline', length: inches(34), within: inches(0.25) }),
  setTolerances: () => setTolerancesEdit({ angleDeg: 1, clockingDeg: 1, length: inches(0.0625) }),
  setEngine: () =>
    setEngineEdit({
      firingOrder: [1, 3, 4, 2],
      rpm: 6000,
      gasTemperature: { value: 650, unit: 'C' },
      gamma: 1.3,
      molarMass: 28.6,
    }),
  movePrimary: ({ header }) => movePrimaryEdit(header, 'primary-2', 1),
  renamePrimary: ({ name }) => renamePrimaryEdit('primary-2', name),
  removePrimary: ({ header }) => removePrimaryEdit(header, 'primary-4'),
  addParts: ({ header, newId }) => addPartsEdit(header, header.primaries, newId),
  setPort: ({ primary }) => setPortEdit(primary, firstPort('mm')),
  portRow: ({ header }) =>
    foundValue(
      portRowEdit(header.primaries, { first: firstPort('in'), along: { x: 1, y: 0, z: 0 }, spacings: [inches(4)] }),
    ),
  assignInlet: ({ primary }) => assignInletEdit(primary, null),
  collectorPattern: ({ header, name, newId }) =>
    foundValue(collectorPatternEdit(header, { name, layout: PATTERN, primaryIds: ['primary-1'] }, newId)),
  addInlet: ({ header, newId }) => addInletEdit(header, null, newId),
  replaceInlet: ({ collector, name }) =>
    replaceInletEdit(collector, { ...(collector.inlets[0] as Collector['inlets'][number]), name }),
  setSlip: ({ header, collector, name }) => {
    const inlet = { ...(collector.inlets[0] as Collector['inlets'][number]), name };
    return setSlipEdit(header, collector, { ...inlet, slip: { deeper: inches(0.5), shallower: inches(0) } });
  },
  removeInlet: ({ header, collector }) => removeInletEdit(header, collector, 'inlet-1'),
  addObstacle: ({ header, newId }) =>
    addObstacleEdit(header, OBSTACLE_KINDS[0]?.kind ?? 'box', { id: newId(), unit: 'in' }),
  replaceObstacle: ({ obstacle, name }) => replaceObstacleEdit({ ...obstacle, name }),
  removeObstacle: ({ obstacle }) => removeObstacleEdit(obstacle.id),
  renameHeader: ({ name }) => renameHeaderEdit(name),
  setSettings: () => setSettingsEdit({ target: { kind: 'mean' } }),
  setTube: ({ header, name }) => setTubeEdit(header, { material: name }),
  setTolerance: ({ header }) => setToleranceEdit(header, { minus: inches(0.25) }),
  setClosure: ({ header }) => setClosureEdit(header, { tiltDeg: 1 }),
  finish: () => finishHeaderEdit(),
  mirror: ({ header }) => foundValue(mirrorBank(header, ['primary-1', 'primary-2'], VEHICLE_MIDDLE)),
  mirroredCopy: ({ header, newId }) =>
    foundValue(
      mirroredCopy(
        header,
        header.primaries.map(({ id }) => id),
        { plane: VEHICLE_MIDDLE, newId },
      ),
    ),
  mend: ({ primary, other }) => firstMending(primary, other),
  reclock: ({ header, primary }) => {
    const [turn] = foundValue(jointTurnsToInlet(header, primary));
    return turn === undefined ? null : reclockEdit(primary, turn);
  },
  readLra: ({ primary, newId }) => foundValue(tableEdit('lra', LRA, { primary, unit: 'in', newId })).edit,
  readXyz: ({ primary, newId }) => foundValue(tableEdit('xyz', XYZ, { primary, unit: 'in', newId })).edit,
};

const names = fc.array(hostileNameArbitrary, { minLength: 3, maxLength: 6 });

/** The edit is one that the store would take as it stands: the schema changes nothing in it, it applies, and its words fit. */
function expectTaken(edit: Edit | null, header: Header): void {
  if (edit === null) throw new Error('an edit was expected');
  expect(editSchema.safeParse(edit)).toEqual({ success: true, data: edit });
  const applied = applyEdit(header, edit);
  expect(applied.ok ? [] : applied.problems).toEqual([]);
  const words = describeEdit(edit, header);
  expect(nameSchema.safeParse(words)).toEqual({ success: true, data: words });
  // What stands for half a character.
  expect(words).not.toContain('\ufffd');
  if (!applied.ok) return;
  expect(applyEdit(applied.value.header, applied.value.inverse)).toMatchObject({ ok: true, value: { header } });
}

describe('whatever things are called', () => {
  test.each(Object.entries(BUILDERS))('%s makes an edit that is taken', (_name, build) => {
    fc.assert(
      fc.property(names, (given) => {
        const cast = castOf(given);
        expectTaken(build(cast), cast.header);
      }),
      { numRuns: 150 },
    );
  });

  test('a move is taken', () => {
    fc.assert(
      fc.property(names, (given) => {
        const { header } = castOf(given);
        const outcome = suggestMoves(header, 'primary-3', { kinds: ['straights'] });
        if (outcome.kind === 'none') throw new Error('the demo has a move for its short primary');
        for (const move of outcome.moves.slice(0, 2)) expectTaken(move.edit, header);
      }),
      { numRuns: 10 },
    );
  });

  test('a label of any length is cut to one that is taken', () => {
    fc.assert(
      fc.property(fc.array(hostileNameArbitrary, { minLength: 1, maxLength: 4 }), (parts) => {
        expectTaken(batchOf(parts.join(' '), []), demoHeader('demo'));
      }),
    );
  });
});

test('freeing hundreds of pieces is one step whose words still fit', () => {
  const { header, primary } = castOf(['x', 'y', 'z']);
  const pieces = Array.from({ length: 500 }, (_, index) => ({
    ...(primary.pieces[0] as Piece),
    id: `p-${index}`,
    locked: true,
  }));
  const long = { ...header, primaries: header.primaries.with(0, { ...primary, pieces }) };
  const held = { lockedPieces: pieces.map((_, index) => index), weldedPieces: [], weldedJoints: [] };
  const offer = freeOffer({ ...primary, pieces }, held);
  expect(offer?.name).toBe('Unlock 500 pieces');
  expectTaken(offer?.edit ?? null, long);
});
