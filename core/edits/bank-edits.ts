/** Edits that make the other bank: primaries mirrored where they stand, or copied to the other side. */

import type { Collector, Header, Inlet, Piece, Primary } from '../header/header.ts';
import { nameWithEnding } from '../header/names.ts';
import { withoutMeasured } from '../header/new-header.ts';
import {
  type MirrorPlane,
  mirroredCollector,
  mirroredPrimary,
  type SoundPlane,
  soundPlane,
} from '../path/banks/mirror.ts';
import type { PathProblem } from '../path/path-problem.ts';
import { failure, type Result, success } from '../result.ts';
import { type BatchEdit, batchOf, type SingleEdit } from './edit.ts';
import { asNewPiece } from './piece-edits.ts';

/**
 * The edits that turn a primary into its mirror image where it stands: its port's pose is reflected and its clockings change
 * sign. Lengths, angles and radii stay; so do pieces without clocking. Doing it twice gives the primary back.
 */
export function mirrorPrimary(primary: Primary, plane: MirrorPlane): Result<readonly SingleEdit[], PathProblem> {
  const sound = soundPlane(plane);
  return sound.ok ? success(primaryEdits(primary, sound.value)) : sound;
}

function primaryEdits(primary: Primary, plane: SoundPlane): readonly SingleEdit[] {
  const mirrored = mirroredPrimary(primary, plane);
  const edits: SingleEdit[] = [];
  if (primary.port !== null) edits.push({ kind: 'setPrimary', primaryId: primary.id, set: { port: mirrored.port } });
  for (const [index, piece] of mirrored.pieces.entries()) {
    if (piece === primary.pieces[index] || isSameClocking(piece, primary.pieces[index])) continue;
    edits.push({ kind: 'replacePiece', primaryId: primary.id, piece });
  }
  return edits;
}

/** A clocking of 0 has no sign to change. */
function isSameClocking(a: Piece, b: Piece | undefined): boolean {
  return a.kind !== 'straight' && b !== undefined && b.kind !== 'straight' && a.clockingDeg === b.clockingDeg;
}

/**
 * Mirrors primaries where they stand, as one step. A collector goes with them when every primary that ends in it does, so that
 * a bank that closed before closes after. Problems: a plane that is none, a primary that is not there.
 */
export function mirrorBank(
  header: Header,
  primaryIds: readonly string[],
  plane: MirrorPlane,
): Result<BatchEdit, PathProblem> {
  const bank = bankOf(header, primaryIds, plane);
  if (!bank.ok) return bank;
  const edits: SingleEdit[] = bank.value.primaries.flatMap((primary) => primaryEdits(primary, bank.value.plane));
  for (const collector of bank.value.collectors) {
    edits.push({ kind: 'replaceCollector', collector: mirroredCollector(collector, bank.value.plane) });
  }
  return success(batchOf('mirror', edits));
}

/**
 * Adds the mirror image of a bank, as one step: planned and unlocked, with copies of the collectors that only this bank ends
 * in. Primaries without pieces are what it was meant for: they are filled first, in their order, and keep their names and
 * whatever port or inlet they have. Beyond them new primaries come after the last one, called "1 mirrored" and so on.
 */
export function mirroredCopy(
  header: Header,
  primaryIds: readonly string[],
  { plane, newId }: { readonly plane: MirrorPlane; readonly newId: () => string },
): Result<BatchEdit, PathProblem> {
  const bank = bankOf(header, primaryIds, plane);
  if (!bank.ok) return bank;
  const empty = header.primaries.filter(({ id, pieces }) => pieces.length === 0 && !primaryIds.includes(id));
  const copies = copyIds(bank.value, empty, newId);
  const primaries = bank.value.primaries.flatMap((primary, index): readonly SingleEdit[] => {
    const copy = copiedPrimary(mirroredPrimary(primary, bank.value.plane), copies);
    const place = empty[index];
    if (place !== undefined) return filledBy(place, copy);
    return [{ kind: 'addPrimary', primary: copy, at: header.primaries.length + index - empty.length }];
  });
  const collectors = bank.value.collectors.map((collector, index): SingleEdit => {
    const copy = copiedCollector(mirroredCollector(collector, bank.value.plane), copies);
    return { kind: 'addCollector', collector: copy, at: header.collectors.length + index };
  });
  const assigned = bank.value.primaries.flatMap(({ id, inletId }): readonly SingleEdit[] => {
    const [primaryId, copiedInletId] = [copies.primaries.get(id), copies.inlets.get(inletId ?? '')];
    if (primaryId === undefined || copiedInletId === undefined) return [];
    if (empty.some((place) => place.id === primaryId && place.inletId !== null)) return [];
    return [{ kind: 'setPrimary', primaryId, set: { inletId: copiedInletId } }];
  });
  return success(batchOf('mirrored copy', [...primaries, ...collectors, ...assigned]));
}

/** The copy's pieces and port in a primary that is there already; a port that was measured stays. */
function filledBy(place: Primary, { pieces, port, tube }: Primary): readonly SingleEdit[] {
  return [
    { kind: 'setPrimary', primaryId: place.id, set: { port: place.port ?? port, tube } },
    ...pieces.map((piece, at): SingleEdit => ({ kind: 'addPiece', primaryId: place.id, piece, at })),
  ];
}

/** Ids of the copies by those of their originals. */
interface CopyIds {
  readonly newId: () => string;
  readonly primaries: ReadonlyMap<string, string>;
  readonly inlets: ReadonlyMap<string, string>;
}

function copyIds({ primaries, collectors }: Bank, empty: readonly Primary[], newId: () => string): CopyIds {
  return {
    newId,
    primaries: new Map(primaries.map(({ id }, index) => [id, empty[index]?.id ?? newId()])),
    inlets: new Map(collectors.flatMap(({ inlets }) => inlets.map(({ id }) => [id, newId()] as const))),
  };
}

const copiedName = (name: string) => nameWithEnding(name, ' mirrored');

/** Its inlet is assigned once that is there. */
function copiedPrimary(primary: Primary, { newId, primaries }: CopyIds): Primary {
  const pieces = primary.pieces.map((piece) => asNewPiece(piece, newId()));
  const id = primaries.get(primary.id) ?? newId();
  return { ...withoutMeasured(primary), id, name: copiedName(primary.name), inletId: null, pieces };
}

function copiedCollector(collector: Collector, copies: CopyIds): Collector {
  const inlets = collector.inlets.map((inlet): Inlet => {
    const id = copies.inlets.get(inlet.id) ?? copies.newId();
    if (inlet.place?.kind !== 'endOf') return { ...inlet, id };
    // The end of a primary outside the bank has no mirror image here, so its inlet is left unmeasured.
    const primaryId = copies.primaries.get(inlet.place.primaryId);
    return { ...inlet, id, place: primaryId === undefined ? null : { kind: 'endOf', primaryId } };
  });
  return { ...collector, id: copies.newId(), name: copiedName(collector.name), inlets };
}

interface Bank {
  readonly primaries: readonly Primary[];
  readonly collectors: readonly Collector[];
  readonly plane: SoundPlane;
}

/** The primaries asked for, and the collectors that they and no others end in. */
function bankOf(header: Header, primaryIds: readonly string[], plane: MirrorPlane): Result<Bank, PathProblem> {
  const sound = soundPlane(plane);
  if (!sound.ok) return sound;
  const wanted = new Set(primaryIds);
  const missing = primaryIds.find((id) => !header.primaries.some((primary) => primary.id === id));
  if (missing !== undefined) return failure({ kind: 'noSuchPrimary', primaryId: missing });
  const primaries = header.primaries.filter(({ id }) => wanted.has(id));
  const collectors = header.collectors.filter(({ inlets }) => {
    const users = header.primaries.filter(({ inletId }) => inlets.some(({ id }) => id === inletId));
    return users.length > 0 && users.every(({ id }) => wanted.has(id));
  });
  return success({ primaries, collectors, plane: sound.value });
}
