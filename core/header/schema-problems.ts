/** Turns what the schema finds wrong into problems of our own, with paths and in plain terms. */

import type * as z from 'zod';
import type { HeaderProblem, ProblemPath } from './header-problem.ts';
import { shortened } from './names.ts';

/** Past this many, more problems of one file help nobody. */
const PROBLEMS_LIMIT = 50;

type Issue = z.core.$ZodIssue;

/** All problems of `input`, as `schema.safeParse(input)` reported them; paths start at `input`. */
export function schemaProblems(issues: readonly Issue[], input: unknown): readonly HeaderProblem[] {
  return issues.flatMap((issue) => problemsOf(issue, input));
}

/** The first problems and, when there are more than anybody would read, how many more. */
export function firstProblems(problems: readonly HeaderProblem[]): readonly HeaderProblem[] {
  if (problems.length <= PROBLEMS_LIMIT) return problems;
  const more: HeaderProblem = { kind: 'moreProblems', path: [], count: problems.length - PROBLEMS_LIMIT };
  return [...problems.slice(0, PROBLEMS_LIMIT), more];
}

function problemsOf(issue: Issue, input: unknown): readonly HeaderProblem[] {
  const path = issue.path.map((step) => (typeof step === 'number' ? step : String(step)));
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({ kind: 'unknownField', path: [...path, key] }));
  }
  if (issue.code === 'too_big' && issue.origin === 'array') {
    return [{ kind: 'tooMany', path, limit: Number(issue.maximum) }];
  }
  return [{ kind: 'invalidValue', path, expected: expectedBy(issue), found: describeValue(valueAt(input, path)) }];
}

const TYPE_WORDS: Readonly<Record<string, string>> = {
  string: 'text in quotes',
  number: 'an ordinary number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'a group of fields',
  array: 'a list',
};

const CUSTOM_WORDS: Readonly<Record<string, string>> = {
  'forbidden characters': 'text without control characters or marks that turn the reading direction',
  empty: 'at least one character that can be seen',
  'several lines': 'a single line without tabs',
  'too few pies': 'enough pies that no cut turns the tube by more than 90 degrees',
  'method twice': 'each method at most once',
  'empty list': 'at least one entry, or no list at all',
  'cylinder twice': 'every cylinder once',
  'cylinder left out': 'every cylinder from 1 to their number',
  'intervals of other cylinders': 'an interval for each cylinder of the firing order',
  'intervals not of one cycle': 'intervals that add up to 720 degrees, two turns of the crank',
  'no heat': 'a temperature above absolute zero',
  'zero direction': 'a direction in which at least one of x, y and z is not zero',
};

function expectedBy(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return TYPE_WORDS[issue.expected] ?? 'a value of another kind';
    case 'too_small':
      return atLeast(Number(issue.minimum), issue.origin);
    case 'too_big':
      return issue.origin === 'string'
        ? `at most ${Number(issue.maximum)} characters`
        : `a number of at most ${Number(issue.maximum)}`;
    case 'invalid_value':
      return oneOf(issue.values);
    case 'invalid_union':
      return oneOf(choicesOf(issue));
    case 'invalid_format':
      return '1 to 64 characters out of letters A to Z, digits, - and _';
    case 'custom':
      return CUSTOM_WORDS[issue.message] ?? 'a value that fits here';
    default:
      return 'a value that fits here';
  }
}

/** The schema writes "above zero" as the least positive number that there is. */
function atLeast(minimum: number, origin: string): string {
  if (origin === 'string') return `at least ${minimum} characters`;
  if (origin === 'array') return `at least ${minimum} entries`;
  return minimum === Number.MIN_VALUE ? 'a number above 0' : `a number of at least ${minimum}`;
}

function oneOf(choices: readonly unknown[]): string {
  if (choices.length === 0) return 'a value of another kind';
  return choices.length === 1 ? String(choices[0]) : `one of ${choices.map(String).join(', ')}`;
}

function choicesOf(issue: z.core.$ZodIssueInvalidUnion): readonly unknown[] {
  if ('options' in issue && Array.isArray(issue.options)) return issue.options;
  return issue.errors.flatMap((branch) =>
    branch.flatMap((inner) => (inner.code === 'invalid_value' ? inner.values : [])),
  );
}

function valueAt(input: unknown, path: ProblemPath): unknown {
  let value: unknown = input;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Readonly<Record<string | number, unknown>>)[step];
  }
  return value;
}

/** Characters that would garble the sentence that shows them. */
const UNSHOWABLE = /[\p{Cc}\p{Cf}\p{Cs}\u2028\u2029]/gu;

/** A value in words short enough for a sentence: the text in quotes, the number, or what kind of thing it is. */
export function describeValue(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'null';
  if (typeof value === 'string') return quoted(value);
  if (Number.isNaN(value)) return 'not a number';
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : 'a number too large to hold';
  if (typeof value === 'boolean') return String(value);
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : `a list of ${value.length}`;
  return 'a group of fields';
}

/** Of a text that is longer than any name no more than this is looked at. */
const LOOKED_AT = 400;

/** Text in quotes, shortened to 41 characters, with a middle dot for what cannot be shown. */
export function quoted(text: string): string {
  return `"${shortened(text.slice(0, LOOKED_AT).replace(UNSHOWABLE, '\u00b7'), 41)}"`;
}
