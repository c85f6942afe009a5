/** A process that receives, counts, cuts, cuts by plan and takes back stock through the program's own dispatcher until it ends or is killed. */

import process from 'node:process';
import { parseArgs } from 'node:util';
import type { Edit } from '../../core/edits/edit.ts';
import type { Piece } from '../../core/header/header.ts';
import type { ShelfChange } from '../../core/stock/ledger/shelf-change.ts';
import { NO_GOALS } from '../../core/stock/plan/cut-plan.ts';
import { DEFAULT_SAW } from '../../core/stock/plan/from-shelf.ts';
import type { KeptPlan } from '../../core/stock/plan/kept-plan.ts';
import type { StockItem } from '../../core/stock/stock-item.ts';
import type { ResponseOf } from '../../electron/bridge/contract.ts';
import { openBackend, type TestBackend } from './backend-under-test.ts';
import { digestOf } from './canonical.ts';
import { tell } from './protocol.ts';
import { randomBelow, seededRandom } from './seeded-random.ts';

const { values } = parseArgs({
  options: {
    folder: { type: 'string' },
    seed: { type: 'string' },
    mode: { type: 'string' },
    commits: { type: 'string' },
  },
});
const random = seededRandom(Number(values.seed));
const commitLimit = values.commits === undefined ? Number.POSITIVE_INFINITY : Number(values.commits);
const ROWS = 6;
let requests = 0;

type Counts = ReadonlyMap<string, number>;
/** Counts before and after a step that can be taken back. */
interface Step {
  readonly step: number;
  readonly before: Counts;
}

function row(id: string, count: number): StockItem {
  const tube = { material: 'tube', od: { value: 1.75, unit: 'in' }, wall: { value: 0.065, unit: 'in' } } as const;
  return { kind: 'straight', id, ...tube, length: { value: 48, unit: 'in' }, count, note: '' };
}

/** A list of changes that together are one step, and the counts that it leads to. */
function randomChanges(counts: Counts, revisions: Counts): { readonly changes: ShelfChange[]; readonly after: Counts } {
  const after = new Map(counts);
  const changes: ShelfChange[] = [];
  const first = randomBelow(random, ROWS);
  for (let turn = 0; turn <= randomBelow(random, 3); turn += 1) {
    const id = `row-${(first + turn) % ROWS}`;
    const count = after.get(id);
    const pieces = 1 + randomBelow(random, 5);
    if (count === undefined) changes.push({ kind: 'add', item: row(id, pieces) });
    else if (count >= pieces) changes.push({ kind: 'move', itemId: id, pieces, reason: 'cut' });
    else changes.push({ kind: 'set', item: row(id, count + pieces), revision: revisions.get(id) ?? 0 });
    after.set(id, count !== undefined && count >= pieces ? count - pieces : (count ?? 0) + pieces);
  }
  return { changes, after };
}

async function counted(backend: TestBackend) {
  const { stock, history } = await backend.must('listStock', {});
  return {
    counts: new Map(stock.map(({ item }) => [item.id, item.count])),
    revisions: new Map(stock.map(({ item, revision }) => [item.id, revision])),
    history,
  };
}

function digestOfCounts(counts: Counts): string {
  return digestOf([...counts].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** What the plan says matters to nobody here; that it stands in both books or in neither does. */
const NO_CUTS: KeptPlan = {
  pieces: [],
  stock: [],
  problem: { pieces: [], joints: [], stock: [], saw: DEFAULT_SAW },
  plan: { opened: [], short: [], goals: NO_GOALS, bounds: [], ended: 'searched' },
};

/** The header whose piece is cut by plans; made at the first start. */
async function headerToCut(backend: TestBackend): Promise<string> {
  const { headers } = await backend.must('listHeaders', { place: 'bench' });
  const [there] = headers;
  if (there !== undefined && there.revision > 0) return there.headerId;
  const headerId = there?.headerId ?? (await backend.must('createHeader', { name: 'To cut', from: 'blank' })).header.id;
  const primary = { id: 'p1', name: '1', tube: null, port: null, inletId: null, pieces: [piece('planned')] };
  const edit: Edit = { kind: 'addPrimary', primary, at: 0 };
  const steps = [{ action: 'do' as const, stepId: 'the-first-step', edit }];
  await backend.must('commitSteps', { headerId, baseRevision: 0, steps });
  return headerId;
}

function piece(state: Piece['state']): Piece {
  return { kind: 'straight', id: 's1', state, locked: false, note: '', length: { value: 4, unit: 'in' } };
}

async function planned(backend: TestBackend, headerId: string, changes: ShelfChange[], requestId: string) {
  const { revision } = await backend.must('readRevision', { headerId });
  // Cut again each time: whatever the state, the step is there.
  const edit: Edit = {
    kind: 'batch',
    label: 'cut piece',
    edits: [
      { kind: 'replacePiece', primaryId: 'p1', piece: piece('planned') },
      { kind: 'replacePiece', primaryId: 'p1', piece: piece('cut') },
    ],
  };
  const headers = [{ headerId, baseRevision: revision, edit }];
  const asked = { requestId, headers, changes, known: [], because: 'Cut plan', kept: NO_CUTS };
  return await backend.must('carryOutCutPlan', asked);
}

async function work(backend: TestBackend): Promise<void> {
  const headerId = await headerToCut(backend);
  const first = await counted(backend);
  tell({ kind: 'opened', headerId: 'shelf', revision: 0, digest: digestOfCounts(first.counts) });
  let last: Step | null = null;
  for (let commits = 0; commits < commitLimit; commits += 1) {
    requests += 1;
    const requestId = `${values.seed}-${process.pid}-${String(requests).padStart(6, '0')}`;
    const { counts, revisions } = await counted(backend);
    const back: Step | null = last !== null && randomBelow(random, 4) === 0 ? last : null;
    const { changes, after } = randomChanges(counts, revisions);
    tell({ kind: 'sent', stepIds: [requestId], digest: digestOfCounts(back?.before ?? after) });
    const make = { requestId, changes, because: '' };
    const turn = { requestId, action: 'undo' as const, step: back?.step ?? 0 };
    const isPlan = back === null && randomBelow(random, 3) === 0;
    const made = () => (isPlan ? planned(backend, headerId, changes, requestId) : backend.must('changeShelf', make));
    const written: ResponseOf<'changeShelf'> = back === null ? await made() : await backend.must('turnShelfBack', turn);
    tell({ kind: 'acked', stepIds: [requestId], revision: written.step });
    last = back === null ? { step: written.step, before: counts } : null;
  }
}

tell({ kind: 'started' });
const backend = openBackend(values.folder ?? '', random);
const start = await backend.must('start', {});
if (start.state !== 'ready') throw new Error(`cannot open: ${JSON.stringify(start.problem)}`);
await work(backend);
await backend.close();
tell({ kind: 'done' });
