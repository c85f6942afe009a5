/** Edits that add primaries, copy, name, move and remove them. */

import type { Collector, Header, Primary } from '../header/header.ts';
import { MEASURE_KINDS, type MeasureKind, type Measurement } from '../header/measured.ts';
import { labelName } from '../header/names.ts';
import { withoutMeasured } from '../header/new-header.ts';
import { type BatchEdit, batchOf, type Edit, type SingleEdit } from './edit.ts';
import { asNewPiece } from './piece-edits.ts';

/** The least whole number that is no name yet. */
function freeNumber(taken: ReadonlySet<string>): string {
  let number = 1;
  while (taken.has(String(number))) number += 1;
  return String(number);
}

/** The names that so many more primaries get, in order. */
function freeNumbers(header: Header, count: number): readonly string[] {
  const taken = new Set(header.primaries.map(({ name }) => name));
  return Array.from({ length: count }, () => {
    const name = freeNumber(taken);
    taken.add(name);
    return name;
  });
}

/** Empty primaries after the last one, named by the least free numbers. */
function emptyPrimaries(header: Header, newIds: readonly string[]): readonly SingleEdit[] {
  const names = freeNumbers(header, newIds.length);
  return newIds.map((id, index): SingleEdit => {
    const primary: Primary = { id, name: names[index] ?? id, tube: null, port: null, inletId: null, pieces: [] };
    return { kind: 'addPrimary', primary, at: header.primaries.length + index };
  });
}

/** An empty primary after the last one. */
export function addPrimaryEdit(header: Header, newId: string): Edit | null {
  return emptyPrimaries(header, [newId])[0] ?? null;
}

/** So many empty primaries as one step: the start of a new header. */
export function addPrimariesEdit(header: Header, newIds: readonly string[]): BatchEdit {
  return batchOf(`add ${newIds.length} primaries`, emptyPrimaries(header, newIds));
}

/**
 * A copy right after the original: same pieces under new ids, planned rather than tacked, since nothing of it is made.
 * Port and inlet are places of the original only. Null when there is no such primary.
 */
export function duplicatePrimaryEdit(header: Header, primaryId: string, newId: () => string): Edit | null {
  const at = header.primaries.findIndex((primary) => primary.id === primaryId);
  const original = header.primaries[at];
  const [name] = freeNumbers(header, 1);
  if (original === undefined || name === undefined) return null;
  const pieces = original.pieces.map((piece) => asNewPiece(piece, newId()));
  const primary: Primary = { ...withoutMeasured(original), id: newId(), name, port: null, inletId: null, pieces };
  return { kind: 'addPrimary', primary, at: at + 1 };
}

/** Moves a primary by so many places; null where it would leave the list or there is no such primary. */
export function movePrimaryEdit(header: Header, primaryId: string, by: number): Edit | null {
  const from = header.primaries.findIndex((primary) => primary.id === primaryId);
  const to = from + by;
  if (from === -1 || to < 0 || to >= header.primaries.length) return null;
  return { kind: 'movePrimary', primaryId, to };
}

export function renamePrimaryEdit(primaryId: string, name: string): Edit {
  return { kind: 'setPrimary', primaryId, set: { name } };
}

/** One reading of a finished tube put in, in place of any by the same method; null takes that one away. */
export function setMeasurementEdit(primary: Primary, method: MeasureKind, reading: Measurement | null): Edit {
  const others = (primary.measured ?? []).filter(({ kind }) => kind !== method);
  const measured = (reading === null ? others : [...others, reading]).toSorted(
    (a, b) => MEASURE_KINDS.indexOf(a.kind) - MEASURE_KINDS.indexOf(b.kind),
  );
  return { kind: 'setMeasured', primaryId: primary.id, measured };
}

/** Removes a primary, after clearing the target and the inlets that point at it. An unknown id gives an edit that is refused. */
export function removePrimaryEdit(header: Header, primaryId: string): BatchEdit {
  const { target } = header.settings;
  const clearTarget: readonly SingleEdit[] =
    target.kind === 'primary' && target.primaryId === primaryId
      ? [{ kind: 'setSettings', set: { target: { kind: 'longest' } } }]
      : [];
  const clearInlets = header.collectors.flatMap((collector) => withoutEndOf(collector, primaryId));
  const name = header.primaries.find((primary) => primary.id === primaryId)?.name ?? primaryId;
  const remove: SingleEdit = { kind: 'removePrimary', primaryId };
  return batchOf(`remove primary ${labelName(name)}`, [...clearTarget, ...clearInlets, remove]);
}

function withoutEndOf(collector: Collector, primaryId: string): readonly SingleEdit[] {
  const inlets = collector.inlets.map((inlet) =>
    inlet.place?.kind === 'endOf' && inlet.place.primaryId === primaryId ? { ...inlet, place: null } : inlet,
  );
  const isChanged = inlets.some((inlet, index) => inlet !== collector.inlets[index]);
  return isChanged ? [{ kind: 'replaceCollector', collector: { ...collector, inlets } }] : [];
}

/**
 * The names that the primaries of a parts list get in a header, in the list's order: their own where it is free, else the
 * least whole number that neither the header nor the list uses.
 */
export function namesInHeader(header: Header, primaries: readonly Pick<Primary, 'name'>[]): readonly string[] {
  const taken = new Set(header.primaries.map(({ name }) => name));
  const wanted = new Set(primaries.map(({ name }) => name));
  return primaries.map(({ name }) => {
    const given = taken.has(name) ? freeNumber(new Set([...taken, ...wanted])) : name;
    taken.add(given);
    return given;
  });
}

/** All primaries of a parts list after those of the header, under new ids: one step, taken back by one undo. */
export function addPartsEdit(header: Header, primaries: readonly Primary[], newId: () => string): BatchEdit {
  const names = namesInHeader(header, primaries);
  const edits = primaries.map((primary, index): SingleEdit => {
    const added: Primary = {
      ...primary,
      id: newId(),
      name: names[index] ?? primary.name,
      // Places of whatever header the list came from mean nothing in this one.
      port: null,
      inletId: null,
      pieces: primary.pieces.map((piece) => ({ ...piece, id: newId() })),
    };
    return { kind: 'addPrimary', primary: added, at: header.primaries.length + index };
  });
  const count = primaries.length === 1 ? '1 primary' : `${primaries.length} primaries`;
  return batchOf(`add ${count} of a parts list`, edits);
}
