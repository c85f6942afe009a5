/** Reads the fields of the archive's search as the question that the store is asked. */

import { describeProblem, type LengthUnit, mmOf, parseLength, startOf } from '../../core/index.ts';
import type { RequestOf } from '../../electron/bridge/contract.ts';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';

export type ArchiveSearch = RequestOf<'searchArchive'>;

/** What stands in the search fields; empty means that anything will do. */
export interface SearchTexts {
  readonly words: string;
  readonly od: string;
  readonly cylinders: string;
  readonly targetFrom: string;
  readonly targetTo: string;
}

export const EMPTY_SEARCH: SearchTexts = { words: '', od: '', cylinders: '', targetFrom: '', targetTo: '' };

/** Half of 1/32 in: a tube typed as 1 3/4 in is found where it was entered as 44.5 mm, and 45 mm is not. */
const OD_SLACK_MM = 0.4;
/** The store's own bounds, standing for "no limit on this side". */
const NO_LOW_MM = 0;
const NO_HIGH_MM = 1e9;
/** A limit typed is meant to be found itself, whatever the last bit of its conversion. */
const LIMIT_SLACK_MM = 1e-6;

export type SearchProblems = Partial<Record<keyof SearchTexts, string>>;

export type ReadSearch =
  | { readonly ok: true; readonly search: ArchiveSearch }
  | { readonly ok: false; readonly problems: SearchProblems };

export function readSearch(texts: SearchTexts, unit: LengthUnit): ReadSearch {
  const problems: SearchProblems = {};
  const lengthMm = (field: 'od' | 'targetFrom' | 'targetTo') => {
    if (texts[field].trim() === '') return null;
    const read = parseLength(withDecimalPoints(texts[field]), unit);
    if (!read.ok) problems[field] = read.problems.map(describeProblem).join(' ');
    return read.ok ? mmOf(read.value) : null;
  };
  const odMm = lengthMm('od');
  const fromMm = lengthMm('targetFrom');
  const toMm = lengthMm('targetTo');
  const primaryCount = wholeNumber(texts.cylinders, problems);
  if (Object.keys(problems).length > 0) return { ok: false, problems };
  return {
    ok: true,
    search: {
      words: startOf(texts.words.trim(), 200),
      odMm: odMm === null ? null : { lowMm: odMm - OD_SLACK_MM, highMm: odMm + OD_SLACK_MM },
      primaryCount,
      targetMm:
        fromMm === null && toMm === null
          ? null
          : {
              lowMm: (fromMm ?? NO_LOW_MM) - LIMIT_SLACK_MM,
              highMm: (toMm ?? NO_HIGH_MM) + (toMm === null ? 0 : LIMIT_SLACK_MM),
            },
    },
  };
}

function wholeNumber(text: string, problems: SearchProblems): number | null {
  const digits = text.trim();
  if (digits === '') return null;
  if (/^\d{1,2}$/.test(digits)) return Number(digits);
  problems.cylinders = `"${digits}" is not a number of primaries; type a whole number such as 4.`;
  return null;
}
