/** Names a step in the words that stand on the undo button. */

import type { Collector, Header, Obstacle, Piece, Primary, Settings } from '../header/header.ts';
import { labelName } from '../header/names.ts';
import { assertNever } from '../result.ts';
import { formatAngle } from '../units/format-angle.ts';
import { formatLength } from '../units/format-length.ts';
import { type Length, mmOf } from '../units/length.ts';
import type { Edit, PrimaryFields } from './edit.ts';

const SETTING_WORDS: Readonly<Record<keyof Settings, string>> = {
  target: 'target',
  tolerance: 'tolerance',
  display: 'display unit',
  tube: 'tube of the header',
  clr: 'CLR of the header',
  weldShrinkage: 'weld shrinkage',
  shortestStraight: 'shortest straight',
  closure: 'closure tolerance',
  wantedGap: 'minimum clearance',
};

/**
 * `edit` in a few plain words, such as "angle of piece 3, primary 2"; `header` is the header before the edit. Never longer than
 * the label of a step may be: long names are shortened.
 */
export function describeEdit(edit: Edit, header: Header): string {
  switch (edit.kind) {
    case 'batch':
      return edit.label;
    case 'addPrimary':
    case 'removePrimary':
    case 'movePrimary':
    case 'setPrimary':
    case 'setMeasured':
      return primaryStep(edit, header);
    case 'addPiece':
    case 'removePiece':
    case 'movePiece':
    case 'replacePiece':
      return pieceStep(edit, header);
    case 'addCollector':
    case 'removeCollector':
    case 'replaceCollector':
      return collectorStep(edit, header);
    case 'addObstacle':
    case 'removeObstacle':
    case 'replaceObstacle':
      return obstacleStep(edit, header);
    case 'setHeader':
    case 'setSettings':
    case 'setTolerances':
    case 'setEngine':
    case 'finishHeader':
    case 'reopenHeader':
      return headerStep(edit);
    default:
      return assertNever(edit);
  }
}

type EditOf<Kind extends Edit['kind']> = Extract<Edit, { readonly kind: Kind }>;

function headerStep(
  edit: EditOf<'setHeader' | 'setSettings' | 'setTolerances' | 'setEngine' | 'finishHeader' | 'reopenHeader'>,
): string {
  switch (edit.kind) {
    case 'setHeader':
      return fieldWords(edit.set, { name: 'name of the header', note: 'note of the header' }, 'header');
    case 'setSettings':
      return fieldWords(edit.set, SETTING_WORDS, 'settings');
    case 'setTolerances':
      return 'tolerances of the shop';
    case 'setEngine':
      return 'engine of the header';
    case 'finishHeader':
      return 'finish the header';
    case 'reopenHeader':
      return 'reopen the header';
    default:
      return assertNever(edit);
  }
}

const PRIMARY_FIELD_WORDS: Readonly<Record<keyof PrimaryFields, string>> = {
  name: 'name',
  tube: 'tube',
  port: 'port',
  inletId: 'inlet',
};

function primaryStep(
  edit: EditOf<'addPrimary' | 'removePrimary' | 'movePrimary' | 'setPrimary' | 'setMeasured'>,
  header: Header,
): string {
  switch (edit.kind) {
    case 'addPrimary':
      return `add primary ${labelName(edit.primary.name)}`;
    case 'removePrimary':
      return `remove ${primaryWords(header, edit.primaryId)}`;
    case 'movePrimary':
      return `move ${primaryWords(header, edit.primaryId)}`;
    case 'setPrimary':
      return `${fieldWords(edit.set, PRIMARY_FIELD_WORDS, 'fields')} of ${primaryWords(header, edit.primaryId)}`;
    case 'setMeasured':
      return `measured lengths of ${primaryWords(header, edit.primaryId)}`;
    default:
      return assertNever(edit);
  }
}

function pieceStep(edit: EditOf<'addPiece' | 'removePiece' | 'movePiece' | 'replacePiece'>, header: Header): string {
  const { primaryId } = edit;
  switch (edit.kind) {
    case 'addPiece':
      return `add ${pieceWords(edit.piece, header)} to ${primaryWords(header, primaryId)}`;
    case 'removePiece':
      return `remove ${placeWords(header, primaryId, edit.pieceId)}`;
    case 'movePiece':
      return `move ${placeWords(header, primaryId, edit.pieceId)}`;
    case 'replacePiece':
      return `${changeWords(header, primaryId, edit.piece)}${placeWords(header, primaryId, edit.piece.id)}`;
    default:
      return assertNever(edit);
  }
}

/** The one field that is set, in words, or `several` when it is not exactly one. */
function fieldWords(set: object, words: Readonly<Record<string, string>>, several: string): string {
  const keys = Object.keys(set);
  const [key] = keys;
  return keys.length === 1 && key !== undefined ? (words[key] ?? several) : several;
}

const primaryOf = (header: Header, primaryId: string): Primary | undefined =>
  header.primaries.find((primary) => primary.id === primaryId);

const primaryWords = (header: Header, primaryId: string) =>
  `primary ${labelName(primaryOf(header, primaryId)?.name ?? primaryId)}`;

function placeWords(header: Header, primaryId: string, pieceId: string): string {
  const index = primaryOf(header, primaryId)?.pieces.findIndex((piece) => piece.id === pieceId) ?? -1;
  return `${index < 0 ? 'a piece' : `piece ${index + 1}`}, ${primaryWords(header, primaryId)}`;
}

function pieceWords(piece: Piece, header: Header): string {
  switch (piece.kind) {
    case 'straight':
      return `straight ${formatLength(mmOf(piece.length), header.settings.display)}`;
    case 'bend':
      return `bend ${formatAngle(piece.angleDeg)}`;
    case 'pieCut':
      return `pie-cut bend ${formatAngle(piece.angleDeg)}`;
    default:
      return assertNever(piece);
  }
}

const PIECE_FIELD_WORDS: Readonly<Record<string, string>> = {
  length: 'length of ',
  clr: 'CLR of ',
  angleDeg: 'angle of ',
  clockingDeg: 'clocking of ',
  pies: 'pies of ',
  state: 'state of ',
  locked: 'lock on ',
  note: 'note on ',
};

/** Which field of the piece the edit changes; a changed kind says more than what follows from it. */
function changeWords(header: Header, primaryId: string, piece: Piece): string {
  const old = primaryOf(header, primaryId)?.pieces.find((candidate) => candidate.id === piece.id);
  if (!old) return 'change of ';
  if (old.kind !== piece.kind) return 'kind of ';
  const keys = Object.keys(piece) as (keyof Piece)[];
  const changed = keys.filter((key) => !isSame(piece[key], old[key]));
  const [only] = changed;
  return changed.length === 1 && only ? (PIECE_FIELD_WORDS[only] ?? 'change of ') : 'change of ';
}

/** Whether two fields hold the same; most are plain values, and only lengths need a closer look. */
function isSame(one: unknown, other: unknown): boolean {
  return one === other || (isLength(one) && isLength(other) && one.value === other.value && one.unit === other.unit);
}

const isLength = (field: unknown): field is Length => typeof field === 'object' && field !== null && 'unit' in field;

function collectorStep(edit: EditOf<'addCollector' | 'removeCollector' | 'replaceCollector'>, header: Header): string {
  if (edit.kind === 'addCollector') return `add collector ${labelName(edit.collector.name)}`;
  if (edit.kind === 'replaceCollector') return `change of collector ${labelName(edit.collector.name)}`;
  return `remove collector ${nameOf(header.collectors, edit.collectorId)}`;
}

function obstacleStep(edit: EditOf<'addObstacle' | 'removeObstacle' | 'replaceObstacle'>, header: Header): string {
  if (edit.kind === 'addObstacle') return `add obstacle ${labelName(edit.obstacle.name)}`;
  if (edit.kind === 'replaceObstacle') return `change of obstacle ${labelName(edit.obstacle.name)}`;
  return `remove obstacle ${nameOf(header.obstacles, edit.obstacleId)}`;
}

const nameOf = (list: readonly (Collector | Obstacle)[], id: string) =>
  labelName(list.find((item) => item.id === id)?.name ?? id);
