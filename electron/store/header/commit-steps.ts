/** The one door through which a header changes: steps become journal rows and a new document in one transaction. */

import {
  applyCheckedEdit,
  describeEdit,
  failure,
  type Header,
  type Problem,
  type Result,
  success,
} from '../../../core/index.ts';
import type { RequestOf } from '../../bridge/contract.ts';
import type { Tables } from '../tables.ts';
import { pieceCount } from './header-table.ts';
import type { HistoryStep, Stacks } from './journal.ts';
import { revisionsAfter } from './row-revisions.ts';
import { pushed } from './stack.ts';
import type { Standing } from './standings.ts';

type Request = RequestOf<'commitSteps'>;
type Step = Request['steps'][number];

/**
 * Commits the steps that are not committed yet. Answered only after COMMIT has returned; all steps are in, or none is.
 * A request sent again answers as it did the first time. Problems: notFound, finished, changedElsewhere,
 * nothingToUndo, invalidRequest for a step id used elsewhere, and whatever applying the edit refuses.
 */
export function commitSteps(tables: Tables, request: Request, now: Date): Result<{ revision: number }, Problem> {
  let after: Standing | null = null;
  const result = tables.inTransaction<{ revision: number }, Problem>(() => {
    const standing = standingOf(tables, request.headerId);
    if (!standing) return failure({ kind: 'notFound', what: 'header', id: request.headerId });
    const committed = committedBefore(tables, standing, request);
    const expected = request.baseRevision + committed;
    const steps = request.steps.slice(committed);
    if (steps.length === 0) return answer(tables, request, expected);
    const { header, revision, touched } = standing;
    if (header.state === 'finished') return failure({ kind: 'finished', name: header.name });
    if (revision !== expected) return failure({ kind: 'changedElsewhere', expected, found: revision });
    const lastTouched = tables.standings.isLatest(header.id) ? touched : tables.headers.lastTouched();
    const taken = takeSteps(tables, standing, steps, { changedAt: now, lastTouched });
    if (!taken.ok) return taken;
    after = taken.value;
    return answer(tables, request, after.revision);
  });
  if (result.ok && after !== null) tables.standings.set(request.headerId, after);
  return result;
}

/** The draft sent along is written with the steps; one for a header that is not there never gets here. */
function answer({ drafts }: Tables, { headerId, draft }: Request, revision: number) {
  if (draft !== undefined) drafts.save(headerId, draft);
  return success({ revision });
}

/** How many of the first steps are in the journal already: those of a request sent again follow its base revision. */
function committedBefore(
  { journal }: Tables,
  { number, revision }: Standing,
  { baseRevision, steps }: Request,
): number {
  if (revision <= baseRevision) return 0;
  const isThere = ({ stepId }: Step, index: number) => journal.stepIdAt(number, baseRevision + 1 + index) === stepId;
  const count = steps.findIndex((step, index) => !isThere(step, index));
  return count < 0 ? steps.length : count;
}

/** The header to build on, from memory when that is what is stored. Throws DamagedRow. */
function standingOf({ standings, headers, journal }: Tables, headerId: string): Standing | undefined {
  const held = standings.get(headerId);
  if (held) return held;
  const stored = headers.read(headerId);
  return stored && { ...stored, ...journal.stacks(headerId) };
}

/** What a change says about when it was made. */
interface ChangeLabels {
  /** For people. */
  readonly changedAt: Date;
  /** The highest `touched` of all headers before it. */
  readonly lastTouched: number;
}

/** Each step is appended to the journal and brings the rows to where it leads. Returns the header as the last one leaves it. */
function takeSteps(
  tables: Tables,
  start: Standing,
  steps: readonly Step[],
  labels: ChangeLabels,
): Result<Standing, Problem> {
  let standing = start;
  for (const step of steps) {
    const { header } = standing;
    if (header.state === 'finished') return failure({ kind: 'finished', name: header.name });
    const next = step.action === 'do' ? doStep(standing, step) : turnBack(tables, standing, step.action);
    if (!next.ok) return next;
    const after = stored(tables, { before: standing, next: next.value, step, labels });
    if (!after)
      return failure({ kind: 'invalidRequest', call: 'commitSteps', detail: `step ${step.stepId} is used twice` });
    standing = after;
  }
  return success(standing);
}

/** What a step is in the journal, and what it leads to. */
interface Next extends Stacks {
  readonly entry: HistoryStep & { readonly ofRevision: number | null };
  readonly header: Header;
}

function doStep(standing: Standing, { edit }: Extract<Step, { action: 'do' }>): Result<Next, Problem> {
  const applied = applyCheckedEdit(standing.header, edit);
  if (!applied.ok) return applied;
  const { header, inverse } = applied.value;
  const entry = { label: describeEdit(edit, standing.header), edit, inverse, ofRevision: null };
  return success({ entry, header, undo: pushed(standing.undo, standing.revision + 1), redo: null });
}

/** Undo applies the inverse of the last step, redo the edit of the last step undone: both come from the journal. */
function turnBack(tables: Tables, standing: Standing, action: 'undo' | 'redo'): Result<Next, Problem> {
  const { undo, redo } = standing;
  const from = action === 'undo' ? undo : redo;
  if (from === null) return failure({ kind: 'nothingToUndo', action });
  const ofRevision = from.top;
  const { label, edit, inverse } = tables.journal.step(standing, ofRevision);
  const entry = action === 'undo' ? { label, edit: inverse, inverse: edit } : { label, edit, inverse };
  const applied = applyCheckedEdit(standing.header, entry.edit);
  if (!applied.ok) return applied;
  const stacks =
    action === 'undo'
      ? { undo: from.below, redo: pushed(redo, ofRevision) }
      : { undo: pushed(undo, ofRevision), redo: from.below };
  return success({ entry: { ...entry, ofRevision }, header: applied.value.header, ...stacks });
}

interface Taken {
  readonly before: Standing;
  readonly next: Next;
  readonly step: Step;
  readonly labels: ChangeLabels;
}

/**
 * Writes the step and the rows that it changes; a header that is finished now enters the archive in the same transaction.
 * Undefined when there is a step with this id already.
 */
function stored({ journal, archive, headers }: Tables, { before, next, step, labels }: Taken): Standing | undefined {
  const { entry, header, undo, redo } = next;
  const { number } = before;
  const { changedAt, lastTouched } = labels;
  const revision = before.revision + 1;
  // The header that was changed last keeps its place in the lists, and so its own row.
  const isMoved = before.touched < lastTouched;
  const touched = isMoved ? lastTouched + 1 : before.touched;
  const rows = revisionsAfter(before, header, { revision, isMoved });
  const { stepId, action } = step;
  const said = { number, revision, stepId, action, changedAt, pieceCount: pieceCount(header), rows };
  const isNew = journal.append({ ...entry, ...said });
  if (!isNew) return undefined;
  if (header.state === 'finished') archive.add(header, changedAt.toISOString());
  headers.update(before, { header, rows, revision, changedAt, touched });
  return { header, rows, revision, number, touched, undo, redo };
}
