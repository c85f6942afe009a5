/** Says in plain sentences why a header, an edit, an entry or a parts list was refused: where, what, and what to do. */

import { assertNever } from '../result.ts';
import { placeWords } from './describe-path.ts';
import type { EntryFault, HeaderProblem } from './header-problem.ts';
import { quoted } from './schema-problems.ts';

type ProblemOf<Kind extends HeaderProblem['kind']> = Extract<HeaderProblem, { readonly kind: Kind }>;

export function describeHeaderProblem(problem: HeaderProblem): string {
  const where = capitalised(placeWords(problem.path));
  switch (problem.kind) {
    case 'unreadableFile':
      return describeUnreadableFile(problem);
    case 'newerFormat':
      return `The file was made by a newer version of Evenrun: its format is ${problem.found}, this version reads up to ${problem.supported}. Update Evenrun and open it again.`;
    case 'missingColumn':
      return `The first row has no column "${problem.column}": name the columns in the first row and add one called ${problem.column}.`;
    case 'unreadableEntry':
      return describeEntryFault(problem.reason, problem.part);
    case 'invalidValue':
      return `${where} needs ${problem.expected}; it is ${problem.found}.`;
    case 'unknownField':
      return `${where} is a field that is not known here: check its spelling, or take it out.`;
    case 'duplicateId':
      return `${where} is ${quoted(problem.id)}, which something else in the header has already: give each its own.`;
    case 'unknownId':
      return `${where} names ${quoted(problem.id)}, but there is no such ${problem.what}: choose one that is there, or none.`;
    case 'stillUsed':
      return `${quoted(problem.id)} is still used by ${problem.by}: choose something else there first.`;
    case 'placeOutOfList':
      return `Place ${problem.at + 1} is past the end of ${placeWords(problem.path)}, which has ${problem.length}: choose a place up to ${problem.length + 1}.`;
    case 'tooMany':
      return `${where} would have more than ${problem.limit} entries, the most that fit: split the work over several headers or lists.`;
    case 'moreProblems':
      return problem.count === 1
        ? 'There is one more problem: mend these first, then read it again.'
        : `There are ${problem.count} more problems: mend these first, then read it again.`;
    case 'headerFinished':
      return 'This header is finished. Duplicate it to change it.';
    case 'headerNotFinished':
      return 'The header is open already: there is nothing to reopen.';
    default:
      return assertNever(problem);
  }
}

function describeUnreadableFile(problem: ProblemOf<'unreadableFile'>): string {
  switch (problem.reason) {
    case 'empty':
      return 'The file is empty: choose a file that was written by Evenrun, or fetch a fresh copy of it.';
    case 'tooLarge':
      return `The file is larger than ${problem.detail}, which no header or list is: check that it is the right one.`;
    case 'tooLargeToWrite':
      return `The file would be larger than ${problem.detail}, and could not be read again: shorten the notes first.`;
    case 'tooDeep':
      return `The file nests more than ${problem.detail} levels, which no header does: check that it is the right file.`;
    case 'tooSlow':
      return `The file could not be read within ${problem.detail}, which every header and list is: check that it is the right one.`;
    case 'notJson':
      return `The file is damaged or cut off: it stops making sense at ${problem.detail || 'its end'}. Fetch a fresh copy, or restore a backup.`;
    case 'notUtf8':
      return `The file is text in ${problem.detail}, where UTF-8 is needed: save it again with the encoding UTF-8.`;
    case 'notAHeader':
      return `The file is not a header of Evenrun: it holds ${problem.detail}. Choose a file that ends in .evenrun.json.`;
    case 'duplicateKey':
      return `${capitalised(placeWords(problem.path))} is there twice, and only one can be meant: take out the one that is wrong.`;
    case 'notFinished':
      return 'This is not a finished header that Evenrun exported: choose a file that ends in .finished.jsonl.';
    case 'altered':
      return 'It was damaged or altered after it was exported: what it holds does not match its checksum. Export it again where it came from, or take another copy of the file.';
    case 'notCsv':
      return `The list cannot be split into cells: ${problem.detail || 'a quote is not closed'}. Save it again as CSV from the spreadsheet.`;
    default:
      return assertNever(problem.reason);
  }
}

function describeEntryFault(reason: EntryFault, part: string): string {
  const read = quoted(part);
  switch (reason) {
    case 'empty':
      return 'Nothing was typed: type a straight such as 2 1/4, or a bend such as b90 180.';
    case 'tooLong':
      return `The line that begins ${read} is too long: enter fewer pieces at a time.`;
    case 'tooManyPieces':
      return `The line has more than ${part} pieces, the most that a primary takes: enter fewer at a time.`;
    case 'noAngle':
      return 'The bend has no angle: type it right after the letter, as in b90 or p90x5.';
    case 'angleOutOfRange':
      return `A bend of ${read} degrees cannot be made: type an angle above 0, up to 360.`;
    case 'clockingOutOfRange':
      return `A clocking of ${read} is more than a full turn: type -360 to 360 degrees.`;
    case 'noPieCount':
      return `The pie-cut bend does not say how many pies: type an x and their number after the angle, as in p90x5.`;
    case 'pieCountOutOfRange':
      return `${read} is not a number of pies: type a whole number from 1 to 90, as in p90x5.`;
    case 'tooFewPies':
      return `${read} is too few pies: no cut may turn the tube by more than 90 degrees, so give the bend more.`;
    case 'noClr':
      return 'There is no CLR after the r: type it as in b90 180 r3, or leave out the r.';
    case 'clrNotAboveZero':
      return `A CLR of ${read} cannot be bent: type a length above zero, as in r3.`;
    case 'nothingToRepeat':
      return 'There is no piece before this one that = could repeat: type the piece itself.';
    case 'noStraight':
      return 'A straight of 0 is no piece: type a length above zero, such as 2 1/4.';
    case 'severalPieces':
      return 'A row holds one piece: leave out the semicolon, or type the others on the entry line.';
    case 'leftover':
      return `${read} is left over: a bend takes an angle, a clocking and a CLR, in that order, as in b60 180 r3.`;
    default:
      return assertNever(reason);
  }
}

const capitalised = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
