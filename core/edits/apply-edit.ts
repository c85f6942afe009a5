/** The only way in which a header changes: an edit in, the changed header and the edit that takes it back out. */

import type { Header } from '../header/header.ts';
import type { HeaderProblem, ProblemPath } from '../header/header-problem.ts';
import { referenceProblems } from '../header/references.ts';
import { firstProblems, schemaProblems } from '../header/schema-problems.ts';
import { failure, type Result, success } from '../result.ts';
import { applySingle } from './apply-single.ts';
import type { Edit, SingleEdit } from './edit.ts';
import { editSchema } from './edit-schema.ts';

/** A change made: the header after it, and the edit that brings back the header before it. */
export interface Step {
  readonly header: Header;
  readonly inverse: Edit;
}

/** After these no reference needs looking at: they bring in no id, and take away nothing that anything else may name. */
const SAFE_KINDS: ReadonlySet<Edit['kind']> = new Set<Edit['kind']>([
  'setHeader',
  'setTolerances',
  'setEngine',
  'setMeasured',
  'movePrimary',
  'removePiece',
  'movePiece',
  'replacePiece',
  'removeObstacle',
  'finishHeader',
  'reopenHeader',
]);

/**
 * Applies one edit to a valid header. Primaries that the edit does not touch keep their identity (===).
 * Applying `inverse` to the result gives back a header deeply equal to the first. Refused edits change nothing.
 * A finished header takes only `reopenHeader`; a batch happens wholly or not at all.
 * Problems in the edit's own values have paths that start at the edit; all others start at the header.
 * Cost: linear in the edit and in the number of ids in the header; tens of microseconds for 8 primaries of 20 pieces.
 */
export function applyEdit(header: Header, edit: Edit): Result<Step, HeaderProblem> {
  const parsed = editSchema.safeParse(edit);
  return parsed.success
    ? applyCheckedEdit(header, parsed.data)
    : failure(...firstProblems(schemaProblems(parsed.error.issues, edit)));
}

/** As `applyEdit`, for an edit that `editSchema` has passed: a message or a row that was read through it. */
export function applyCheckedEdit(header: Header, edit: Edit): Result<Step, HeaderProblem> {
  const applied = edit.kind === 'batch' ? applyBatch(header, edit) : applySingle(header, edit);
  if (!applied.ok || SAFE_KINDS.has(edit.kind)) return applied;
  const problems = referenceProblems(applied.value.header);
  if (problems.length === 0) return applied;
  const known = knownIds(header);
  return failure(...problems.map((problem) => asStillUsed(problem, known, applied.value.header)));
}

/** Applies edits one after another, as one: the inverse is a single batch. All happen or none does. */
export function applyEdits(
  header: Header,
  edits: readonly Edit[],
  label = 'several changes',
): Result<Step, HeaderProblem> {
  const singles = edits.flatMap((edit): readonly SingleEdit[] => (edit.kind === 'batch' ? edit.edits : [edit]));
  return applyEdit(header, { kind: 'batch', label, edits: singles });
}

function applyBatch(header: Header, batch: Extract<Edit, { readonly kind: 'batch' }>): Result<Step, HeaderProblem> {
  let now = header;
  const inverses: SingleEdit[] = [];
  for (const edit of batch.edits) {
    const applied = applySingle(now, edit);
    if (!applied.ok) return applied;
    now = applied.value.header;
    inverses.push(applied.value.inverse);
  }
  return success({ header: now, inverse: { ...batch, edits: inverses.reverse() } });
}

function knownIds(header: Header): ReadonlySet<string> {
  return new Set([
    ...header.primaries.map((primary) => primary.id),
    ...header.collectors.flatMap((collector) => collector.inlets.map((inlet) => inlet.id)),
  ]);
}

/** What was there before the edit and is now pointed at in vain was not unknown: it was taken away. */
function asStillUsed(problem: HeaderProblem, known: ReadonlySet<string>, after: Header): HeaderProblem {
  if (problem.kind !== 'unknownId' || !known.has(problem.id)) return problem;
  return { kind: 'stillUsed', path: problem.path, id: problem.id, by: userAt(problem.path, after) };
}

function userAt(path: ProblemPath, header: Header): string {
  const [list, index, , inner] = path;
  if (list === 'primaries' && typeof index === 'number') return `primary ${header.primaries[index]?.name ?? index + 1}`;
  if (list === 'collectors' && typeof index === 'number' && typeof inner === 'number') {
    return `inlet ${header.collectors[index]?.inlets[inner]?.name ?? inner + 1}`;
  }
  return 'the target';
}
