/** What each kind of edit does to a header, and which edit takes it back. Values have passed the schema before. */

import type { Collector, Header, Obstacle, Primary } from '../header/header.ts';
import type { HeaderProblem } from '../header/header-problem.ts';
import { OBSTACLES_LIMIT, PIECES_LIMIT, PRIMARIES_LIMIT } from '../header/schema.ts';
import { assertNever, failure, type Result, success } from '../result.ts';
import type { SingleEdit } from './edit.ts';
import { type ListPlace, placeOf, withItem, withMoved } from './list-changes.ts';

/** A change made, with the single edit that takes it back. */
export interface SingleStep {
  readonly header: Header;
  readonly inverse: SingleEdit;
}

type Outcome = Result<SingleStep, HeaderProblem>;
type EditOf<Kind extends SingleEdit['kind']> = Extract<SingleEdit, { readonly kind: Kind }>;

const PRIMARIES: ListPlace = { path: ['primaries'], what: 'primary', limit: PRIMARIES_LIMIT };
const COLLECTORS: ListPlace = { path: ['collectors'], what: 'collector', limit: PRIMARIES_LIMIT };
const OBSTACLES: ListPlace = { path: ['obstacles'], what: 'obstacle', limit: OBSTACLES_LIMIT };

const step = (header: Header, inverse: SingleEdit): Outcome => success({ header, inverse });

/** Carries out one edit. What it leaves pointing at nothing is found by the caller, once, at the end of a batch. */
export function applySingle(header: Header, edit: SingleEdit): Outcome {
  if (header.state === 'finished' && edit.kind !== 'reopenHeader')
    return failure({ kind: 'headerFinished', path: ['state'] });
  switch (edit.kind) {
    case 'setHeader':
    case 'setSettings':
    case 'setTolerances':
    case 'setEngine':
    case 'finishHeader':
    case 'reopenHeader':
      return applyToHeader(header, edit);
    case 'addPrimary':
    case 'removePrimary':
    case 'movePrimary':
    case 'setPrimary':
    case 'setMeasured':
      return applyToPrimaries(header, edit);
    case 'addPiece':
    case 'removePiece':
    case 'movePiece':
    case 'replacePiece':
      return applyToPieces(header, edit);
    case 'addCollector':
    case 'removeCollector':
    case 'replaceCollector':
      return applyToCollectors(header, edit);
    case 'addObstacle':
    case 'removeObstacle':
    case 'replaceObstacle':
      return applyToObstacles(header, edit);
    default:
      return assertNever(edit);
  }
}

type HeaderEdit = EditOf<'setHeader' | 'setSettings' | 'setTolerances' | 'setEngine' | 'finishHeader' | 'reopenHeader'>;

function applyToHeader(header: Header, edit: HeaderEdit): Outcome {
  switch (edit.kind) {
    case 'setHeader':
      return step({ ...header, ...given(edit.set) }, { kind: 'setHeader', set: before(header, edit.set) });
    case 'setSettings': {
      const settings = { ...header.settings, ...given(edit.set) };
      return step({ ...header, settings }, { kind: 'setSettings', set: before(header.settings, edit.set) });
    }
    // A field that nobody has filled is not there at all, so that files without it stay as they were.
    case 'setTolerances': {
      const { tolerances, ...rest } = header;
      const changed = edit.tolerances === null ? rest : { ...rest, tolerances: edit.tolerances };
      return step(changed, { kind: 'setTolerances', tolerances: tolerances ?? null });
    }
    case 'setEngine': {
      const { engine, ...rest } = header;
      const changed = edit.engine === null ? rest : { ...rest, engine: edit.engine };
      return step(changed, { kind: 'setEngine', engine: engine ?? null });
    }
    case 'finishHeader':
      return step({ ...header, state: 'finished' }, { kind: 'reopenHeader' });
    case 'reopenHeader':
      if (header.state === 'open') return failure({ kind: 'headerNotFinished', path: ['state'] });
      return step({ ...header, state: 'open' }, { kind: 'finishHeader' });
    default:
      return assertNever(edit);
  }
}

function applyToPrimaries(
  header: Header,
  edit: EditOf<'addPrimary' | 'removePrimary' | 'movePrimary' | 'setPrimary' | 'setMeasured'>,
): Outcome {
  if (edit.kind === 'addPrimary') {
    const list = withItem(header.primaries, { item: edit.primary, at: edit.at }, PRIMARIES);
    const inverse: SingleEdit = { kind: 'removePrimary', primaryId: edit.primary.id };
    return list.ok ? step({ ...header, primaries: list.value }, inverse) : list;
  }
  const found = placeOf(header.primaries, edit.primaryId, PRIMARIES);
  if (!found.ok) return found;
  const at = found.value;
  const primary = header.primaries[at] as Primary;
  switch (edit.kind) {
    case 'removePrimary':
      return step({ ...header, primaries: header.primaries.toSpliced(at, 1) }, { kind: 'addPrimary', primary, at });
    case 'movePrimary': {
      const list = withMoved(header.primaries, { from: at, to: edit.to }, PRIMARIES);
      return list.ok ? step({ ...header, primaries: list.value }, { ...edit, to: at }) : list;
    }
    case 'setPrimary': {
      const primaries = header.primaries.with(at, { ...primary, ...given(edit.set) });
      return step({ ...header, primaries }, { ...edit, set: before(primary, edit.set) });
    }
    case 'setMeasured': {
      const { measured, ...rest } = primary;
      const changed = edit.measured.length === 0 ? rest : { ...rest, measured: edit.measured };
      return step({ ...header, primaries: header.primaries.with(at, changed) }, { ...edit, measured: measured ?? [] });
    }
    default:
      return assertNever(edit);
  }
}

function applyToPieces(
  header: Header,
  edit: EditOf<'addPiece' | 'removePiece' | 'movePiece' | 'replacePiece'>,
): Outcome {
  const found = placeOf(header.primaries, edit.primaryId, PRIMARIES);
  if (!found.ok) return found;
  const primary = header.primaries[found.value] as Primary;
  const changed = changedPieces(primary, edit, {
    path: ['primaries', found.value, 'pieces'],
    what: 'piece',
    limit: PIECES_LIMIT,
  });
  if (!changed.ok) return changed;
  const primaries = header.primaries.with(found.value, { ...primary, pieces: changed.value.pieces });
  return step({ ...header, primaries }, changed.value.inverse);
}

function changedPieces(
  primary: Primary,
  edit: EditOf<'addPiece' | 'removePiece' | 'movePiece' | 'replacePiece'>,
  place: ListPlace,
): Result<{ readonly pieces: Primary['pieces']; readonly inverse: SingleEdit }, HeaderProblem> {
  const { pieces } = primary;
  const primaryId = primary.id;
  if (edit.kind === 'addPiece') {
    const list = withItem(pieces, { item: edit.piece, at: edit.at }, place);
    const inverse: SingleEdit = { kind: 'removePiece', primaryId, pieceId: edit.piece.id };
    return list.ok ? success({ pieces: list.value, inverse }) : list;
  }
  const found = placeOf(pieces, edit.kind === 'replacePiece' ? edit.piece.id : edit.pieceId, place);
  if (!found.ok) return found;
  const at = found.value;
  const piece = pieces[at] as Primary['pieces'][number];
  switch (edit.kind) {
    case 'removePiece':
      return success({ pieces: pieces.toSpliced(at, 1), inverse: { kind: 'addPiece', primaryId, piece, at } });
    case 'movePiece': {
      const list = withMoved(pieces, { from: at, to: edit.to }, place);
      return list.ok ? success({ pieces: list.value, inverse: { ...edit, to: at } }) : list;
    }
    case 'replacePiece':
      return success({ pieces: pieces.with(at, edit.piece), inverse: { ...edit, piece } });
    default:
      return assertNever(edit);
  }
}

function applyToCollectors(
  header: Header,
  edit: EditOf<'addCollector' | 'removeCollector' | 'replaceCollector'>,
): Outcome {
  if (edit.kind === 'addCollector') {
    const list = withItem(header.collectors, { item: edit.collector, at: edit.at }, COLLECTORS);
    const inverse: SingleEdit = { kind: 'removeCollector', collectorId: edit.collector.id };
    return list.ok ? step({ ...header, collectors: list.value }, inverse) : list;
  }
  const id = edit.kind === 'replaceCollector' ? edit.collector.id : edit.collectorId;
  const found = placeOf(header.collectors, id, COLLECTORS);
  if (!found.ok) return found;
  const at = found.value;
  const collector = header.collectors[at] as Collector;
  if (edit.kind === 'removeCollector') {
    return step({ ...header, collectors: header.collectors.toSpliced(at, 1) }, { kind: 'addCollector', collector, at });
  }
  return step({ ...header, collectors: header.collectors.with(at, edit.collector) }, { ...edit, collector });
}

function applyToObstacles(header: Header, edit: EditOf<'addObstacle' | 'removeObstacle' | 'replaceObstacle'>): Outcome {
  if (edit.kind === 'addObstacle') {
    const list = withItem(header.obstacles, { item: edit.obstacle, at: edit.at }, OBSTACLES);
    const inverse: SingleEdit = { kind: 'removeObstacle', obstacleId: edit.obstacle.id };
    return list.ok ? step({ ...header, obstacles: list.value }, inverse) : list;
  }
  const id = edit.kind === 'replaceObstacle' ? edit.obstacle.id : edit.obstacleId;
  const found = placeOf(header.obstacles, id, OBSTACLES);
  if (!found.ok) return found;
  const at = found.value;
  const obstacle = header.obstacles[at] as Obstacle;
  if (edit.kind === 'removeObstacle') {
    return step({ ...header, obstacles: header.obstacles.toSpliced(at, 1) }, { kind: 'addObstacle', obstacle, at });
  }
  return step({ ...header, obstacles: header.obstacles.with(at, edit.obstacle) }, { ...edit, obstacle });
}

/** A field that is there but undefined means the same as one that is not there. */
function given<Fields extends object>(set: Fields): Fields {
  return Object.fromEntries(Object.entries(set).filter(([, value]) => value !== undefined)) as Fields;
}

/** What the fields about to be set hold now. */
function before<Fields extends object>(from: Fields, set: Partial<Fields>): Partial<Fields> {
  const keys = Object.keys(given(set)) as (keyof Fields)[];
  return Object.fromEntries(keys.map((key) => [key, from[key]])) as Partial<Fields>;
}
