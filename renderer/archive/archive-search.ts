/** Reads the fields of the archive's search as the question that the store is asked. */

import { describeProblem, type LengthUnit, mmOf, parseLength, startOf } from '../../core/index.ts';
import type { RequestOf } from '../../electron/bridge/contract.ts';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';

/** What is looked for; in which order, and how much of it at a time, is not typed. */
export type ArchiveSearch = Omit<RequestOf<'searchArchive'>, 'likeId' | 'from' | 'most'>;

/** What stands in the search fields; empty means that anything will do. */
export interface SearchTexts {
  readonly words: string;
  readonly material: string;
  readonly od: string;
  readonly cylinders: string;
  readonly targetFrom: string;
  readonly targetTo: string;
  readonly spreadTo: string;
  /** Days as a date field gives them, `2026-03-01`. */
  readonly finishedFrom: string;
  readonly finishedTo: string;
}

export const EMPTY_SEARCH: SearchTexts = {
  words: '',
  material: '',
  od: '',
  cylinders: '',
  targetFrom: '',
  targetTo: '',
  spreadTo: '',
  finishedFrom: '',
  finishedTo: '',
};

/** Half of 1/32 in: a tube typed as 1 3/4 in is found where it was entered as 44.5 mm, and 45 mm is not. */
const OD_SLACK_MM = 0.4;
/** The store's own bounds, standing for "no limit on this side". */
const NO_LOW_MM = 0;
const NO_HIGH_MM = 1e9;
const NO_LOW_MS = -8.64e15;
const NO_HIGH_MS = 8.64e15;
/** A limit typed is meant to be found itself, whatever the last bit of its conversion. */
const LIMIT_SLACK_MM = 1e-6;

export type SearchProblems = Partial<Record<keyof SearchTexts, string>>;

export type ReadSearch =
  | { readonly ok: true; readonly search: ArchiveSearch }
  | { readonly ok: false; readonly problems: SearchProblems };

export function readSearch(texts: SearchTexts, unit: LengthUnit): ReadSearch {
  const problems: SearchProblems = {};
  const lengthMm = (field: 'od' | 'targetFrom' | 'targetTo' | 'spreadTo') => {
    if (texts[field].trim() === '') return null;
    const read = parseLength(withDecimalPoints(texts[field]), unit);
    if (!read.ok) problems[field] = read.problems.map(describeProblem).join(' ');
    return read.ok ? mmOf(read.value) : null;
  };
  const odMm = lengthMm('od');
  const targetMm = rangeMm(lengthMm('targetFrom'), lengthMm('targetTo'));
  const spreadMm = rangeMm(null, lengthMm('spreadTo'));
  const primaryCount = wholeNumber(texts.cylinders, problems);
  if (Object.keys(problems).length > 0) return { ok: false, problems };
  return {
    ok: true,
    search: {
      words: startOf(texts.words.trim(), 200),
      material: startOf(texts.material.trim(), 200),
      odMm: odMm === null ? null : { lowMm: odMm - OD_SLACK_MM, highMm: odMm + OD_SLACK_MM },
      primaryCount,
      targetMm,
      spreadMm,
      finishedAt: daysMs(texts.finishedFrom, texts.finishedTo),
    },
  };
}

/** Null on one side is no limit there. */
function rangeMm(fromMm: number | null, toMm: number | null): ArchiveSearch['targetMm'] {
  if (fromMm === null && toMm === null) return null;
  return {
    lowMm: (fromMm ?? NO_LOW_MM) - LIMIT_SLACK_MM,
    highMm: toMm === null ? NO_HIGH_MM : toMm + LIMIT_SLACK_MM,
  };
}

/** Whole days as the reader's own clock has them, both included. A date field gives nothing until it holds a day. */
function daysMs(from: string, to: string): ArchiveSearch['finishedAt'] {
  const [first, last] = [startOfDayMs(from, 0), startOfDayMs(to, 1)];
  if (first === null && last === null) return null;
  return { low: first ?? NO_LOW_MS, high: last === null ? NO_HIGH_MS : last - 1 };
}

function startOfDayMs(day: string, later: number): number | null {
  const [, year, month, date] = /^(\d{4,6})-(\d{2})-(\d{2})$/.exec(day) ?? [];
  if (year === undefined || month === undefined || date === undefined) return null;
  const start = new Date(2000, Number(month) - 1, Number(date) + later);
  // Years below 100 mean what they say this way.
  start.setFullYear(Number(year), Number(month) - 1, Number(date) + later);
  // Where that day of 2000 began at one o'clock, as clocks that are put forward at midnight have it, this one need not.
  start.setHours(0, 0, 0, 0);
  const ms = start.getTime();
  return Number.isNaN(ms) ? null : ms;
}

function wholeNumber(text: string, problems: SearchProblems): number | null {
  const digits = text.trim();
  if (digits === '') return null;
  if (/^\d{1,2}$/.test(digits)) return Number(digits);
  problems.cylinders = `"${digits}" is not a number of primaries; type a whole number such as 4.`;
  return null;
}
