/** Names a step in the words that stand on the undo button. */

import type { Collector, Header, Obstacle, Piece, Primary, Settings } from '../header/header.ts';
import { assertNever } from '../result.ts';
import { formatAngle } from '../units/format-angle.ts';
import { formatLength } from '../units/format-length.ts';
import { type Length, mmOf } from '../units/length.ts';
import type { Edit } from './edit.ts';

const SETTING_WORDS: Readonly<Record<keyof Settings, string>> = {
  target: 'target',
  tolerance: 'tolerance',
  display: 'display unit',
  tube: 'tube of the header',
  clr: 'CLR of the header',
  weldShrinkage: 'weld shrinkage',
  shortestStraight: 'shortest straight',
  closure: 'closure tolerance',
  wantedGap: 'wanted gap',
};

/** `edit` in a few plain words, such as "angle of piece 3, primary 2"; `header` is the header before the edit. */
export function describeEdit(edit: Edit, header: Header): string {
  switch (edit.kind) {
    case 'batch':
      return edit.label;
    case 'setHeader':
      return fieldWords(edit.set, { name: 'name of the header', note: 'note of the header' }, 'header');
    case 'setSettings':
      return fieldWords(edit.set, SETTING_WORDS, 'settings');
    case 'addPrimary':
      return `add primary ${edit.primary.name}`;
    case 'removePrimary':
      return `remove ${primaryWords(header, edit.primaryId)}`;
    case 'movePrimary':
      return `move ${primaryWords(header, edit.primaryId)}`;
    case 'setPrimary': {
      const words = { name: 'name', tube: 'tube', port: 'port', inletId: 'inlet' };
      return `${fieldWords(edit.set, words, 'fields')} of ${primaryWords(header, edit.primaryId)}`;
    }
    case 'addPiece':
      return `add ${pieceWords(edit.piece, header)} to ${primaryWords(header, edit.primaryId)}`;
    case 'removePiece':
      return `remove ${placeWords(header, edit.primaryId, edit.pieceId)}`;
    case 'movePiece':
      return `move ${placeWords(header, edit.primaryId, edit.pieceId)}`;
    case 'replacePiece':
      return `${changeWords(header, edit.primaryId, edit.piece)}${placeWords(header, edit.primaryId, edit.piece.id)}`;
    case 'addCollector':
    case 'removeCollector':
    case 'replaceCollector':
      return collectorStep(edit, header);
    case 'addObstacle':
    case 'removeObstacle':
    case 'replaceObstacle':
      return obstacleStep(edit, header);
    case 'finishHeader':
      return 'finish the header';
    case 'reopenHeader':
      return 'reopen the header';
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
  `primary ${primaryOf(header, primaryId)?.name ?? primaryId}`;

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

type EditOf<Kind extends Edit['kind']> = Extract<Edit, { readonly kind: Kind }>;

function collectorStep(edit: EditOf<'addCollector' | 'removeCollector' | 'replaceCollector'>, header: Header): string {
  if (edit.kind === 'addCollector') return `add collector ${edit.collector.name}`;
  if (edit.kind === 'replaceCollector') return `change of collector ${edit.collector.name}`;
  return `remove collector ${nameOf(header.collectors, edit.collectorId)}`;
}

function obstacleStep(edit: EditOf<'addObstacle' | 'removeObstacle' | 'replaceObstacle'>, header: Header): string {
  if (edit.kind === 'addObstacle') return `add obstacle ${edit.obstacle.name}`;
  if (edit.kind === 'replaceObstacle') return `change of obstacle ${edit.obstacle.name}`;
  return `remove obstacle ${nameOf(header.obstacles, edit.obstacleId)}`;
}

const nameOf = (list: readonly (Collector | Obstacle)[], id: string) => list.find((item) => item.id === id)?.name ?? id;
