/** Puts the path to a value into words: `primaries[2].pieces[5].angleDeg` is "the angle of piece 6, primary 3". */

import type { ProblemPath } from './header-problem.ts';
import { quoted } from './schema-problems.ts';

/** Lists by the word for one entry. */
const ENTRY_WORDS: ReadonlyMap<string, string> = new Map([
  ['primaries', 'primary'],
  ['pieces', 'piece'],
  ['collectors', 'collector'],
  ['inlets', 'inlet'],
  ['obstacles', 'obstacle'],
  ['edits', 'edit'],
  ['measured', 'reading'],
  ['firingOrder', 'cylinder'],
  ['firingIntervalsDeg', 'firing interval'],
]);

/** Fields whose name in the format is not what a fabricator would call them. */
const FIELD_WORDS: ReadonlyMap<string, string> = new Map([
  ['angleDeg', 'angle'],
  ['clockingDeg', 'clocking'],
  ['clr', 'CLR'],
  ['od', 'OD'],
  ['id', 'id'],
  ['pies', 'number of pies'],
  ['inletId', 'inlet'],
  ['primaryId', 'primary'],
  ['pieceId', 'piece'],
  ['collectorId', 'collector'],
  ['obstacleId', 'obstacle'],
  ['weldShrinkage', 'weld shrinkage'],
  ['shortestStraight', 'shortest straight'],
  ['tiltDeg', 'tilt'],
  ['wantedGap', 'minimum clearance'],
  ['from', 'start'],
  ['to', 'end'],
  ['per', 'fineness'],
  ['up', 'up direction'],
  ['minus', 'lower side'],
  ['plus', 'upper side'],
  ['within', 'uncertainty'],
  ['firingOrder', 'firing order'],
  ['firingIntervalsDeg', 'firing intervals'],
  ['rpm', 'engine speed'],
  ['gasTemperature', 'gas temperature'],
  ['molarMass', 'molar mass'],
  ['openingDeg', 'valve opening'],
  ['travelDeg', 'angle of travel'],
  ['soundMs', 'speed of sound'],
  ['port', 'port'],
  ['order', 'multiple of firing'],
  ['tuned', 'tuned length'],
  ['x', 'x coordinate'],
  ['y', 'y coordinate'],
  ['z', 'z coordinate'],
]);

/** Groups of fields that only the format has: what is in them belongs to what is around them. */
const UNNAMED: ReadonlySet<string> = new Set(['set', 'inputs']);

/** From the innermost field out to the header; an empty path is the file itself. Entries count from 1, as on screen. */
export function placeWords(path: ProblemPath): string {
  const entries: string[] = [];
  const fields: string[] = [];
  path.forEach((step, index) => {
    const list = typeof path[index - 1] === 'string' ? ENTRY_WORDS.get(String(path[index - 1])) : undefined;
    if (typeof step === 'number') entries.unshift(`${list ?? 'entry'} ${step + 1}`);
    else if (typeof path[index + 1] !== 'number' && !isPlainNumber(path, index) && !isUnnamed(path, index))
      fields.unshift(fieldWord(step));
  });
  const place = entries.join(', ');
  const field = fields.map((word) => `the ${word}`).join(' of ');
  if (field === '') return place === '' ? 'the file' : place;
  if (place === '') return field;
  return typeof path.at(-1) === 'number' ? `${place} of ${field}` : `${field} of ${place}`;
}

/** The number of a length is what everybody calls the length. */
function isPlainNumber(path: ProblemPath, index: number): boolean {
  return path[index] === 'value' && index === path.length - 1 && index > 0;
}

/** The last of a path is what is wrong, whatever it is called. */
function isUnnamed(path: ProblemPath, index: number): boolean {
  return index < path.length - 1 && UNNAMED.has(String(path[index]));
}

function fieldWord(step: string): string {
  const word = FIELD_WORDS.get(step) ?? step;
  // Names out of a file may be anything; those out of the format are plain words.
  return /^[a-zA-Z ]{1,40}$/.test(word) ? word : `field ${quoted(word)}`;
}
