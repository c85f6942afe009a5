/** A process that edits one header through the program's own dispatcher until it ends or is killed. */

import process from 'node:process';
import { parseArgs } from 'node:util';
import { applyEdit } from '../../core/edits/apply-edit.ts';
import type { Edit } from '../../core/edits/edit.ts';
import type { Header } from '../../core/header/header.ts';
import type { RequestOf, ResponseOf } from '../../electron/bridge/contract.ts';
import { openBackend, type TestBackend } from './backend-under-test.ts';
import { digestOf } from './canonical.ts';
import { DRAFT_OF_STEP, tell } from './protocol.ts';
import { randomStep } from './random-step.ts';
import { randomBelow, seededRandom } from './seeded-random.ts';

type Step = RequestOf<'commitSteps'>['steps'][number];
type Opened = ResponseOf<'openHeader'>;
interface Change {
  readonly edit: Edit;
  readonly inverse: Edit;
}
/** What the child believes the header to be; undo and redo mirror the renderer's stacks. */
interface Belief {
  readonly header: Header;
  readonly undo: readonly Change[];
  readonly redo: readonly Change[];
}

const { values } = parseArgs({
  options: {
    folder: { type: 'string' },
    seed: { type: 'string' },
    mode: { type: 'string' },
    commits: { type: 'string' },
  },
});
const folder = values.folder ?? '';
const random = seededRandom(Number(values.seed));
const isShared = values.mode === 'shared';
const commitLimit = values.commits === undefined ? Number.POSITIVE_INFINITY : Number(values.commits);
let stepCount = 0;

function applied(header: Header, edit: Edit): { readonly header: Header; readonly inverse: Edit } {
  const result = applyEdit(header, edit);
  if (!result.ok) throw new Error(`the test made an edit that core refuses: ${JSON.stringify(result.problems)}`);
  return result.value;
}

function oneStep(belief: Belief): { readonly step: Step; readonly next: Belief } {
  stepCount += 1;
  const stepId = `${values.seed}-${process.pid}-${String(stepCount).padStart(6, '0')}`;
  const choice = isShared ? 9 : randomBelow(random, 10);
  const undone = belief.undo.at(-1);
  const redone = belief.redo.at(-1);
  if (choice === 0 && undone !== undefined) {
    const { header } = applied(belief.header, undone.inverse);
    const next = { header, undo: belief.undo.slice(0, -1), redo: [...belief.redo, undone] };
    return { step: { action: 'undo', stepId }, next };
  }
  if (choice === 1 && redone !== undefined) {
    const { header } = applied(belief.header, redone.edit);
    const next = { header, undo: [...belief.undo, redone], redo: belief.redo.slice(0, -1) };
    return { step: { action: 'redo', stepId }, next };
  }
  const edit = randomStep(belief.header, stepId, random);
  const { header, inverse } = applied(belief.header, edit);
  return {
    step: { action: 'do', stepId, edit },
    next: { header, undo: [...belief.undo, { edit, inverse }], redo: [] },
  };
}

function manySteps(belief: Belief): { readonly steps: readonly Step[]; readonly next: Belief } {
  const steps: Step[] = [];
  let next = belief;
  for (let left = 1 + randomBelow(random, 3); left > 0; left -= 1) {
    const made = oneStep(next);
    steps.push(made.step);
    next = made.next;
  }
  return { steps, next };
}

async function openFirst(backend: TestBackend): Promise<Opened> {
  const start = await backend.must('start', {});
  if (start.state !== 'ready') throw new Error(`cannot open: ${JSON.stringify(start.problem)}`);
  const { headers } = await backend.must('listHeaders', { place: 'bench' });
  const [first] = headers;
  return first === undefined
    ? await backend.must('createHeader', { name: 'Crash test', from: 'demo' })
    : await backend.must('openHeader', { headerId: first.headerId });
}

function beliefOf(opened: Opened): Belief {
  return { header: opened.header, undo: opened.undo, redo: opened.redo };
}

function tellOpened(opened: Opened): void {
  const { header, revision } = opened;
  tell({ kind: 'opened', headerId: header.id, revision, digest: digestOf(header) });
}

async function edit(backend: TestBackend): Promise<void> {
  let opened = await openFirst(backend);
  tellOpened(opened);
  let { revision } = opened;
  let belief = beliefOf(opened);
  for (let commits = 0; commits < commitLimit; commits += 1) {
    const { steps, next } = manySteps(belief);
    const stepIds = steps.map(({ stepId }) => stepId);
    tell({ kind: 'sent', stepIds, digest: digestOf(next.header) });
    const headerId = opened.header.id;
    // The draft names the step it came with, so that a reader can tell whether one is there without the other.
    const draft = { field: DRAFT_OF_STEP, text: stepIds.at(-1) ?? '' };
    const reply = await backend.call('commitSteps', { headerId, baseRevision: revision, steps: [...steps], draft });
    if (reply.ok) {
      revision = reply.value.revision;
      belief = next;
      tell({ kind: 'acked', stepIds, revision });
    } else {
      tell({ kind: 'refused', call: 'commitSteps', problems: reply.problems });
      if (!isShared) throw new Error(`refused: ${JSON.stringify(reply.problems)}`);
      opened = await backend.must('openHeader', { headerId });
      revision = opened.revision;
      belief = beliefOf(opened);
    }
  }
}

tell({ kind: 'started' });
const backend = openBackend(folder, random);
await edit(backend);
await backend.close();
tell({ kind: 'done' });
