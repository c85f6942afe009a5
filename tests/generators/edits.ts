/** Edits for tests: of every kind, for a given header, most of them fitting and some not. */

import fc from 'fast-check';
import type { Edit, SingleEdit } from '../../core/edits/edit.ts';
import type { Header } from '../../core/header/header.ts';
import {
  collectorArbitrary,
  engineArbitrary,
  measuredArbitrary,
  nameArbitrary,
  noteArbitrary,
  obstacleArbitrary,
  pieceArbitrary,
  poseArbitrary,
  primaryArbitrary,
  settingsArbitrary,
  tolerancesArbitrary,
  tubeArbitrary,
} from './headers.ts';

/** A subset of the fields, at least one. */
const someOf = <Fields extends object>(fields: fc.Arbitrary<Fields>): fc.Arbitrary<Partial<Fields>> =>
  fc.tuple(fields, fc.infiniteStream(fc.boolean())).map(([all, coins]) => {
    const entries = Object.entries(all);
    const kept = entries.filter((_, index) => coins.next().value || index === entries.length - 1);
    return Object.fromEntries(kept) as Partial<Fields>;
  });

/** One of the ids, or now and then one that nothing has. */
const idOutOf = (ids: readonly string[]): fc.Arbitrary<string> =>
  ids.length === 0
    ? fc.constant('nobody')
    : fc.oneof({ weight: 12, arbitrary: fc.constantFrom(...ids) }, fc.constant('nobody'));

const placeUpTo = (length: number) => fc.integer({ min: 0, max: length + 1 });

function headerEdits(header: Header): readonly fc.Arbitrary<SingleEdit>[] {
  const primaryIds = header.primaries.map((primary) => primary.id);
  return [
    fc.record({
      kind: fc.constant('setHeader' as const),
      set: someOf(fc.record({ name: nameArbitrary, note: noteArbitrary })),
    }),
    fc.record({ kind: fc.constant('setSettings' as const), set: someOf(settingsArbitrary(primaryIds)) }),
    fc.record({
      kind: fc.constant('setTolerances' as const),
      tolerances: fc.option(tolerancesArbitrary, { nil: null }),
    }),
    fc.record({ kind: fc.constant('setEngine' as const), engine: fc.option(engineArbitrary, { nil: null }) }),
    fc.constant({ kind: 'finishHeader' as const }),
    fc.constant({ kind: 'reopenHeader' as const }),
  ];
}

function primaryEdits(header: Header): readonly fc.Arbitrary<SingleEdit>[] {
  const primaryId = idOutOf(header.primaries.map((primary) => primary.id));
  const at = placeUpTo(header.primaries.length);
  const inletId = fc.option(
    idOutOf(header.collectors.flatMap((collector) => collector.inlets.map((inlet) => inlet.id))),
  );
  return [
    fc.record({ kind: fc.constant('addPrimary' as const), primary: primaryArbitrary('p-new'), at }),
    fc.record({ kind: fc.constant('removePrimary' as const), primaryId }),
    fc.record({ kind: fc.constant('movePrimary' as const), primaryId, to: at }),
    fc.record({ kind: fc.constant('setMeasured' as const), primaryId, measured: measuredArbitrary }),
    fc.record({
      kind: fc.constant('setPrimary' as const),
      primaryId,
      set: someOf(
        fc.record({ inletId, name: nameArbitrary, tube: fc.option(tubeArbitrary), port: fc.option(poseArbitrary) }),
      ),
    }),
  ];
}

function pieceEdits(header: Header): readonly fc.Arbitrary<SingleEdit>[] {
  return header.primaries.flatMap((primary) => {
    const primaryId = fc.constant(primary.id);
    const pieceId = idOutOf(primary.pieces.map((piece) => piece.id));
    const at = placeUpTo(primary.pieces.length);
    return [
      fc.record({ kind: fc.constant('addPiece' as const), primaryId, piece: pieceArbitrary('piece-new'), at }),
      fc.record({ kind: fc.constant('removePiece' as const), primaryId, pieceId }),
      fc.record({ kind: fc.constant('movePiece' as const), primaryId, pieceId, to: at }),
      fc
        .tuple(pieceId, pieceArbitrary())
        .map(([id, piece]) => ({ kind: 'replacePiece' as const, primaryId: primary.id, piece: { ...piece, id } })),
    ];
  });
}

function bodyEdits(header: Header): readonly fc.Arbitrary<SingleEdit>[] {
  const collectorId = idOutOf(header.collectors.map((collector) => collector.id));
  const obstacleId = idOutOf(header.obstacles.map((obstacle) => obstacle.id));
  const collectorAt = placeUpTo(header.collectors.length);
  const obstacleAt = placeUpTo(header.obstacles.length);
  return [
    fc.record({ kind: fc.constant('addCollector' as const), collector: collectorArbitrary('c-new'), at: collectorAt }),
    fc.record({ kind: fc.constant('removeCollector' as const), collectorId }),
    collectorId.chain((id) =>
      fc.record({ kind: fc.constant('replaceCollector' as const), collector: collectorArbitrary(id) }),
    ),
    fc.record({ kind: fc.constant('addObstacle' as const), obstacle: obstacleArbitrary('o-new'), at: obstacleAt }),
    fc.record({ kind: fc.constant('removeObstacle' as const), obstacleId }),
    obstacleId.chain((id) =>
      fc.record({ kind: fc.constant('replaceObstacle' as const), obstacle: obstacleArbitrary(id) }),
    ),
  ];
}

/** Any single edit that could be tried on the header. */
export function singleEditArbitrary(header: Header): fc.Arbitrary<SingleEdit> {
  return fc.oneof(...headerEdits(header), ...primaryEdits(header), ...pieceEdits(header), ...bodyEdits(header));
}

/** Any edit that could be tried on the header: one in six is a batch of up to four. */
export function editArbitrary(header: Header): fc.Arbitrary<Edit> {
  const single = singleEditArbitrary(header);
  const batch = fc.record({
    kind: fc.constant('batch' as const),
    label: nameArbitrary,
    edits: fc.array(single, { maxLength: 4 }),
  });
  return fc.oneof({ weight: 5, arbitrary: single }, { weight: 1, arbitrary: batch });
}
