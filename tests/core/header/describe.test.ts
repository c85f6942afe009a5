/** Words: the names of places in a file, and of problems. */

import { expect, test } from 'vitest';
import { placeWords } from '../../../core/header/describe-path.ts';
import { describeProblem, type Problem } from '../../../core/index.ts';

test('places are told from the inside out, counted from 1', () => {
  expect(placeWords(['primaries', 2, 'pieces', 5, 'angleDeg'])).toBe('the angle of piece 6, primary 3');
  expect(placeWords(['collectors', 0, 'inlets', 1, 'slip', 'deeper', 'value'])).toBe(
    'the deeper of the slip of inlet 2, collector 1',
  );
  expect(placeWords(['settings', 'tube', 'od', 'unit'])).toBe('the unit of the OD of the tube of the settings');
  expect(placeWords(['set', 'target', 'tuned', 'inputs', 'openingDeg'])).toBe(
    'the valve opening of the tuned length of the target',
  );
  expect(placeWords(['set'])).toBe('the set');
  expect(placeWords([])).toBe('the file');
  expect(placeWords(['__proto__'])).toBe('the field "__proto__"');
});

test.each<[RegExp, Problem]>([
  [/disk .* full.*safe/, { kind: 'storage', fault: 'diskFull', file: 'evenrun.sqlite', detail: '' }],
  [/not written.*safe/, { kind: 'storage', fault: 'readOnly', file: 'evenrun.sqlite', detail: '' }],
  [/permission/, { kind: 'storage', fault: 'noPermission', file: 'evenrun.sqlite', detail: '' }],
  [/properly.*safe/, { kind: 'storage', fault: 'ioError', file: 'evenrun.sqlite', detail: '' }],
  [/damaged.*backup/, { kind: 'storage', fault: 'corrupt', file: 'evenrun.sqlite', detail: '' }],
  [/not a database of Evenrun/, { kind: 'storage', fault: 'notOurs', file: 'evenrun.sqlite', detail: '' }],
  [/newer version.*update/, { kind: 'storage', fault: 'newerVersion', file: 'evenrun.sqlite', detail: '' }],
  [/holding .*safe.*try again/, { kind: 'storage', fault: 'busy', file: 'evenrun.sqlite', detail: '' }],
  [/not there.*restore/, { kind: 'storage', fault: 'missing', file: 'evenrun.sqlite', detail: '' }],
  [/too long.*shorter path/, { kind: 'storage', fault: 'pathTooLong', file: 'evenrun.sqlite', detail: '' }],
  [/another window.*7.*5/, { kind: 'changedElsewhere', expected: 5, found: 7 }],
  [/stock item is not there/, { kind: 'notFound', what: 'stockItem', id: 'a' }],
  [/"Four" is finished/, { kind: 'finished', name: 'Four' }],
  [/nothing to redo/, { kind: 'nothingToUndo', action: 'redo' }],
  [/Nothing was changed/, { kind: 'invalidRequest', call: 'start', detail: 'x' }],
  [/Open the address that Evenrun printed.*start Evenrun again/, { kind: 'pageUnknown' }],
  [/reference r-1/, { kind: 'internal', reference: 'r-1' }],
  [/still used by primary 1/, { kind: 'stillUsed', path: ['primaries', 0, 'inletId'], id: 'i', by: 'primary 1' }],
  [
    /Place 10 .*the pieces of primary 1.* has 7/,
    { kind: 'placeOutOfList', path: ['primaries', 0, 'pieces'], at: 9, length: 7 },
  ],
  [/This header is finished/, { kind: 'headerFinished', path: ['state'] }],
  [/nothing to reopen/, { kind: 'headerNotFinished', path: ['state'] }],
  [/no column "primary"/, { kind: 'missingColumn', path: ['primary'], column: 'primary' }],
  [/cannot be split/, { kind: 'unreadableFile', reason: 'notCsv', path: [], detail: '' }],
])('%s', (words, problem) => {
  expect(describeProblem(problem)).toMatch(words);
  expect(describeProblem(problem)).toMatch(/^[A-Z"a-z].*\.$/s);
});
