/** Whether a value is a header: every field by the schema, and every reference by where it leads. */

import * as z from 'zod';
import { failure, type Result, success } from '../../result.ts';
import type { Header } from '../header.ts';
import type { HeaderProblem } from '../header-problem.ts';
import { referenceProblems } from '../references.ts';
import { headerSchema, PRIMARIES_LIMIT, primarySchema } from '../schema.ts';
import { firstProblems, schemaProblems } from '../schema-problems.ts';

/**
 * A header but for its primaries, which are checked one by one: zod hands on what it found in a list as the arguments of one
 * call, and 64 primaries of which nothing is right are more than a call takes.
 */
const frameSchema = headerSchema.extend({ primaries: z.array(z.unknown()).max(PRIMARIES_LIMIT) });

/** Checks a value that is said to be a header, such as one that came out of a database. Never throws. */
export function checkHeader(value: unknown): Result<Header, HeaderProblem> {
  const frame = frameSchema.safeParse(value);
  const checked = primariesOf(value).map((primary) => ({ primary, result: primarySchema.safeParse(primary) }));
  const problems = [
    ...(frame.success ? [] : schemaProblems(frame.error.issues, value)),
    ...checked.flatMap(({ primary, result }, index) =>
      result.success ? [] : schemaProblems(result.error.issues, primary).map((problem) => inPrimary(problem, index)),
    ),
  ];
  if (!frame.success || problems.length > 0) return failure(...firstProblems(problems));
  const primaries = checked.flatMap(({ result }) => (result.success ? [result.data] : []));
  const header = { ...frame.data, primaries };
  const astray = referenceProblems(header);
  return astray.length === 0 ? success(header) : failure(...firstProblems(astray));
}

function inPrimary(problem: HeaderProblem, index: number): HeaderProblem {
  return { ...problem, path: ['primaries', index, ...problem.path] };
}

/** What stands for primaries in the value; none when that is no list, or a longer one than is looked at. */
function primariesOf(value: unknown): readonly unknown[] {
  const found: unknown = typeof value === 'object' && value !== null && 'primaries' in value ? value.primaries : null;
  return Array.isArray(found) && found.length <= PRIMARIES_LIMIT ? found : [];
}
