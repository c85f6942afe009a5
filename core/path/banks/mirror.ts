/** The other bank: a primary or a whole bank reflected in a plane, as edits. */

import type { BatchEdit, SingleEdit } from '../../edits/edit.ts';
import type { Collector, Direction, Header, Inlet, Piece, Place, Pose, Primary } from '../../header/header.ts';
import { failure, type Result, success } from '../../result.ts';
import { type Length, MM_PER_INCH, mmOf } from '../../units/length.ts';
import { unitDirection, vectorOfPlace } from '../frame.ts';
import type { PathProblem } from '../path-problem.ts';
import { dot, isFiniteVector, subtract, type Vector } from '../vector.ts';

export interface MirrorPlane {
  /** Any place on the plane. */
  readonly at: Place;
  /** Square to the plane; any length but zero. */
  readonly normal: Direction;
}

/** The middle of the vehicle: the usual plane between two banks. */
export const VEHICLE_MIDDLE: MirrorPlane = {
  at: { x: { value: 0, unit: 'mm' }, y: { value: 0, unit: 'mm' }, z: { value: 0, unit: 'mm' } },
  normal: { x: 0, y: 1, z: 0 },
};

/** A plane in millimetres that has been found sound. */
interface SoundPlane {
  readonly point: Vector;
  readonly normal: Vector;
}

function soundPlane(plane: MirrorPlane): Result<SoundPlane, PathProblem> {
  const point = vectorOfPlace(plane.at);
  if (!isFiniteVector(point)) return failure({ kind: 'poseNotFinite', path: ['plane', 'at'] });
  if (!isFiniteVector(plane.normal)) return failure({ kind: 'poseNotFinite', path: ['plane', 'normal'] });
  const normal = unitDirection(plane.normal);
  return normal === null
    ? failure({ kind: 'poseZeroDirection', path: ['plane', 'normal'] })
    : success({ point, normal });
}

/** Adding zero turns -0 into 0, which files and databases keep. */
const withoutMinusZero = (value: number) => value + 0;

function mirrorDirection(direction: Direction, { normal }: SoundPlane): Direction {
  const twice = 2 * dot(direction, normal);
  return {
    x: withoutMinusZero(direction.x - twice * normal.x),
    y: withoutMinusZero(direction.y - twice * normal.y),
    z: withoutMinusZero(direction.z - twice * normal.z),
  };
}

/** Coordinates that the mirror does not move stay exactly as typed; those that only change sign do just that. */
function mirrorPlace(place: Place, plane: SoundPlane): Place {
  const twice = 2 * dot(subtract(vectorOfPlace(place), plane.point), plane.normal);
  const moved = (coordinate: Length, part: number): Length => {
    const byMm = -twice * part;
    if (byMm === 0) return coordinate;
    const { value, unit } = coordinate;
    const isSignOnly = byMm === -2 * mmOf(coordinate);
    const mirrored = isSignOnly ? -value : value + byMm / (unit === 'in' ? MM_PER_INCH : 1);
    return { value: withoutMinusZero(mirrored), unit };
  };
  const { normal } = plane;
  return { x: moved(place.x, normal.x), y: moved(place.y, normal.y), z: moved(place.z, normal.z) };
}

function mirrorPose(pose: Pose, plane: SoundPlane): Pose {
  return {
    at: mirrorPlace(pose.at, plane),
    direction: mirrorDirection(pose.direction, plane),
    up: mirrorDirection(pose.up, plane),
  };
}

/** The piece of the other hand: a clocking changes its sign, everything else stays. */
export function mirrorPiece<Kind extends Piece>(piece: Kind): Kind {
  if (piece.kind === 'straight' || piece.clockingDeg === null) return piece;
  return { ...piece, clockingDeg: withoutMinusZero(-piece.clockingDeg) };
}

function mirroredPrimary(primary: Primary, plane: SoundPlane): Primary {
  const port = primary.port === null ? null : mirrorPose(primary.port, plane);
  return { ...primary, port, pieces: primary.pieces.map((piece) => mirrorPiece(piece)) };
}

function mirroredInlet(inlet: Inlet, plane: SoundPlane): Inlet {
  if (inlet.place === null || inlet.place.kind === 'endOf') return inlet;
  return { ...inlet, place: { kind: 'pose', pose: mirrorPose(inlet.place.pose, plane) } };
}

function mirroredCollector(collector: Collector, plane: SoundPlane): Collector {
  return { ...collector, inlets: collector.inlets.map((inlet) => mirroredInlet(inlet, plane)) };
}

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
  return success({ kind: 'batch', label: 'mirror', edits });
}

/** How the copies of a bank are called and told apart from what they are copies of. */
export interface CopyNames {
  readonly newId: () => string;
  /** The copy's name for a primary or collector of this name. */
  readonly rename: (name: string) => string;
}

/**
 * Adds the mirror image of a bank beside it, as one step: new primaries after the last one, planned and unlocked, with
 * copies of the collectors that only this bank ends in.
 */
export function mirroredCopy(
  header: Header,
  primaryIds: readonly string[],
  options: { readonly plane: MirrorPlane; readonly names: CopyNames },
): Result<BatchEdit, PathProblem> {
  const bank = bankOf(header, primaryIds, options.plane);
  if (!bank.ok) return bank;
  const { primaries, collectors, plane } = bank.value;
  const { newId, rename } = options.names;
  const primaryIdOf = new Map(primaries.map(({ id }) => [id, newId()]));
  const inletIdOf = new Map(collectors.flatMap(({ inlets }) => inlets.map(({ id }) => [id, newId()] as const)));
  const edits: SingleEdit[] = primaries.map((primary, index): SingleEdit => {
    const pieces = mirroredPrimary(primary, plane).pieces.map(
      (piece): Piece => ({ ...piece, id: newId(), state: 'planned', locked: false }),
    );
    const port = primary.port === null ? null : mirrorPose(primary.port, plane);
    const id = primaryIdOf.get(primary.id) ?? newId();
    const copy: Primary = { ...primary, id, name: rename(primary.name), port, inletId: null, pieces };
    return { kind: 'addPrimary', primary: copy, at: header.primaries.length + index };
  });
  for (const [index, collector] of collectors.entries()) {
    const copy = copiedCollector(mirroredCollector(collector, plane), { primaryIdOf, inletIdOf, names: options.names });
    edits.push({ kind: 'addCollector', collector: copy, at: header.collectors.length + index });
  }
  for (const primary of primaries) {
    const inletId = inletIdOf.get(primary.inletId ?? '');
    const primaryId = primaryIdOf.get(primary.id);
    if (inletId !== undefined && primaryId !== undefined)
      edits.push({ kind: 'setPrimary', primaryId, set: { inletId } });
  }
  return success({ kind: 'batch', label: 'mirrored copy', edits });
}

function copiedCollector(
  collector: Collector,
  context: {
    readonly primaryIdOf: ReadonlyMap<string, string>;
    readonly inletIdOf: ReadonlyMap<string, string>;
    readonly names: CopyNames;
  },
): Collector {
  const inlets = collector.inlets.map((inlet): Inlet => {
    const id = context.inletIdOf.get(inlet.id) ?? context.names.newId();
    if (inlet.place?.kind !== 'endOf') return { ...inlet, id };
    // The end of a primary outside the bank has no mirror image here, so its inlet is left unmeasured.
    const primaryId = context.primaryIdOf.get(inlet.place.primaryId);
    return { ...inlet, id, place: primaryId === undefined ? null : { kind: 'endOf', primaryId } };
  });
  return { ...collector, id: context.names.newId(), name: context.names.rename(collector.name), inlets };
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
