/** A bridge to headers in memory, for tests of the page's own logic: faults on demand, and answers as the store's, which one suite holds both to. */

import { applyEdit } from '../core/edits/apply-edit.ts';
import { describeEdit } from '../core/edits/describe-edit.ts';
import type { Header } from '../core/header/header.ts';
import { newHeader, rebuiltHeader } from '../core/header/new-header.ts';
import type { Problem } from '../core/problem.ts';
import type { StockItem } from '../core/stock/stock-item.ts';
import type { CallName, HostBridge, Reply, RequestOf, ResponseOf } from '../electron/bridge/contract.ts';

type Opened = ResponseOf<'openHeader'>;
type Step = RequestOf<'commitSteps'>['steps'][number];
type HistoryStep = Opened['undo'][number];
type Action = 'undo' | 'redo';

/** A header after one of its steps; the first is as it was made. */
interface Row {
  readonly stepId: string;
  readonly action: 'make' | Step['action'];
  readonly header: Header;
  readonly step: HistoryStep | null;
  /** The rows that an undo and a redo after this one turn back. */
  readonly undo: number | null;
  readonly redo: number | null;
}

interface Kept {
  readonly rows: readonly Row[];
  readonly draft: Opened['draft'];
}

/** As many as the store sends. */
const WINDOW = 64;

/** What happens to the next call of a name: it never arrives, its answer is lost, or it answers with a problem. */
export type Fault =
  | { readonly kind: 'neverArrives' }
  | { readonly kind: 'answerLost' }
  | { readonly kind: 'problem'; readonly problem: Problem };

type Answers = { readonly [Name in CallName]?: (request: RequestOf<Name>) => Reply<Name> };

const fine = <Value>(value: Value) => ({ ok: true as const, value });
const trouble = (problem: Problem) => ({ ok: false as const, problems: [problem] });
const missing = (id: string) => trouble({ kind: 'notFound', what: 'header', id });
const asMade = (header: Header): Row => ({ stepId: '', action: 'make', header, step: null, undo: null, redo: null });

export class MemoryBridge implements HostBridge {
  readonly host = 'browser';
  /** Every call that arrived, in order. */
  readonly calls: { readonly name: CallName; readonly request: unknown }[] = [];
  stock: readonly StockItem[] = [];
  /** By id, in the order of their last change. */
  readonly #kept = new Map<string, Kept>();
  /** What was made by requests, by their ids. */
  readonly #made = new Map<string, { readonly asked: string; readonly headerId: string }>();
  readonly #faults: { readonly name: CallName; readonly fault: Fault }[] = [];
  /** Calls wait here while the bridge is held. */
  #gate: { readonly opened: Promise<void>; readonly open: () => void } | null = null;

  constructor(...headers: readonly Header[]) {
    for (const header of headers) {
      this.#kept.set(header.id, { rows: [asMade(header)], draft: null });
    }
  }

  /** The next call of this name meets the fault; several are met in turn. */
  failNext(name: CallName, fault: Fault): void {
    this.#faults.push({ name, fault });
  }

  /** From now on calls wait until `release`. */
  hold(): void {
    const { promise, resolve } = Promise.withResolvers<void>();
    this.#gate = { opened: promise, open: resolve };
  }

  release(): void {
    this.#gate?.open();
    this.#gate = null;
  }

  /** What is "on disk". */
  headerOf(headerId: string): Opened {
    const kept = this.#kept.get(headerId);
    if (kept === undefined) throw new Error(`No header ${headerId}`);
    return openedFrom(kept);
  }

  forget(headerId: string): void {
    this.#kept.delete(headerId);
  }

  onEvent(): () => void {
    return () => undefined;
  }

  async call<Name extends CallName>(name: Name, request: RequestOf<Name>): Promise<Reply<Name>> {
    await this.#gate?.opened;
    await Promise.resolve();
    const at = this.#faults.findIndex((candidate) => candidate.name === name);
    const fault = at === -1 ? null : (this.#faults.splice(at, 1)[0]?.fault ?? null);
    if (fault?.kind === 'neverArrives') throw new Error('unreachable');
    this.calls.push({ name, request });
    if (fault?.kind === 'problem') return trouble(fault.problem);
    const answer = (this.#answers[name] as ((request: RequestOf<Name>) => Reply<Name>) | undefined)?.(
      structuredClone(request),
    );
    if (fault?.kind === 'answerLost' || answer === undefined) throw new Error(`no answer to ${name}`);
    return structuredClone(answer);
  }

  readonly #answers: Answers = {
    openHeader: ({ headerId }) => this.#on(headerId, (kept) => fine(openedFrom(kept))),
    readHistory: ({ headerId, action, from }) =>
      this.#on(headerId, ({ rows }) => {
        const found = rows[from]?.action;
        const isThere =
          found === 'undo' ? action === 'redo' : found !== undefined && found !== 'make' && action === 'undo';
        if (isThere) return fine(historyFrom(rows, action, from));
        return trouble({ kind: 'invalidRequest', call: 'readHistory', detail: `no ${action} of step ${from}` });
      }),
    readRevision: ({ headerId }) =>
      this.#on(headerId, ({ rows }) => fine({ revision: rows.length - 1, state: newest(rows).header.state })),
    commitSteps: (request) => this.#on(request.headerId, (kept) => this.#commit(kept, request)),
    saveDraft: ({ headerId, draft }) =>
      this.#on(headerId, (kept) => {
        this.#kept.set(headerId, { ...kept, draft });
        return fine({});
      }),
    createHeader: (request) =>
      this.#make(request, () => {
        const last = [...this.#kept.values()].at(-1);
        return fine(
          newHeader({ id: '', name: request.name }, last === undefined ? null : newest(last.rows).header.settings),
        );
      }),
    duplicateHeader: (request) =>
      this.#make(request, () =>
        this.#on(request.headerId, ({ rows }) => {
          const { header } = newest(rows);
          const as = { id: header.id, name: request.name };
          return fine(request.as === 'again' ? rebuiltHeader(header, as) : { ...header, ...as });
        }),
      ),
    importHeader: (request) => this.#make(request, () => fine(request.header)),
    listStock: () =>
      fine({
        stock: this.stock.map((item) => ({ item, revision: 1, isDoubtful: false })),
        history: { undo: null, redo: null },
      }),
  };

  #on<Answer>(
    headerId: string,
    act: (kept: Kept) => Answer | ReturnType<typeof trouble>,
  ): Answer | ReturnType<typeof trouble> {
    const kept = this.#kept.get(headerId);
    return kept === undefined ? missing(headerId) : act(kept);
  }

  #make(
    request: { readonly requestId: string },
    make: () => { readonly ok: true; readonly value: Header } | ReturnType<typeof trouble>,
  ): Reply<'openHeader'> {
    const asked = JSON.stringify(request);
    const before = this.#made.get(request.requestId);
    if (before !== undefined && before.asked !== asked)
      return trouble({
        kind: 'invalidRequest',
        call: 'sent again',
        detail: `request ${request.requestId} was another, or is damaged`,
      });
    if (before !== undefined) return this.#on(before.headerId, (kept) => fine(openedFrom(kept)));
    const made = make();
    if (!made.ok) return made;
    const headerId = `made-${this.#made.size + 1}`;
    const kept: Kept = { rows: [asMade({ ...made.value, id: headerId, state: 'open' })], draft: null };
    this.#kept.set(headerId, kept);
    this.#made.set(request.requestId, { asked, headerId });
    return fine(openedFrom(kept));
  }

  #commit(kept: Kept, { headerId, baseRevision, steps, draft = kept.draft }: RequestOf<'commitSteps'>) {
    let { rows } = kept;
    const fresh = steps.findIndex(({ stepId }, index) => rows[baseRevision + 1 + index]?.stepId !== stepId);
    const known = fresh === -1 ? steps.length : fresh;
    const { header } = newest(rows);
    if (known < steps.length) {
      if (header.state === 'finished') return trouble({ kind: 'finished', name: header.name });
      const [expected, found] = [baseRevision + known, rows.length - 1];
      if (found !== expected) return trouble({ kind: 'changedElsewhere', expected, found });
    }
    for (const step of steps.slice(known)) {
      const next = rowAfter(rows, step);
      if (!next.ok) return next;
      rows = [...rows, next.value];
    }
    // Taken out first, so that it comes last.
    if (known < steps.length) this.#kept.delete(headerId);
    this.#kept.set(headerId, { rows, draft });
    return fine({ revision: known < steps.length ? rows.length - 1 : baseRevision + known });
  }
}

function newest(rows: readonly Row[]): Row {
  const row = rows.at(-1);
  if (row === undefined) throw new Error('a header without its first row');
  return row;
}

function openedFrom({ rows, draft }: Kept): Opened {
  const { header, undo, redo } = newest(rows);
  const isFinished = header.state === 'finished';
  const undone = historyFrom(rows, 'undo', isFinished ? null : undo);
  const redone = historyFrom(rows, 'redo', isFinished ? null : redo);
  return {
    header,
    revision: rows.length - 1,
    undo: undone.steps,
    moreUndo: undone.more,
    redo: redone.steps,
    moreRedo: redone.more,
    draft,
    damage: null,
  };
}

function historyFrom(rows: readonly Row[], action: Action, from: number | null): ResponseOf<'readHistory'> {
  const steps: HistoryStep[] = [];
  let next = from;
  while (next !== null && steps.length < WINDOW) {
    const step = rows[next]?.step;
    if (!step) throw new Error(`no step ${next}`);
    steps.unshift(action === 'undo' ? step : { ...step, edit: step.inverse, inverse: step.edit });
    next = rows[next - 1]?.[action] ?? null;
  }
  return { steps, more: next };
}

function rowAfter(rows: readonly Row[], wanted: Step): Reply<never> | { readonly ok: true; readonly value: Row } {
  const { header, undo, redo } = newest(rows);
  const { stepId, action } = wanted;
  const revision = rows.length;
  const turned = action === 'do' ? null : { undo, redo }[action];
  const back = turned === null ? null : (rows[turned]?.step ?? null);
  if (action !== 'do' && back === null) return trouble({ kind: 'nothingToUndo', action });
  const edit = wanted.action === 'do' ? wanted.edit : back?.inverse;
  if (edit === undefined) throw new Error('no edit');
  const applied = applyEdit(header, edit);
  if (!applied.ok) return applied;
  const after = applied.value.header;
  const label = back?.label ?? describeEdit(edit, header);
  const step = { label, edit, inverse: back?.edit ?? applied.value.inverse };
  if (turned === null) return fine({ stepId, action, header: after, step, undo: revision, redo: null });
  const below = rows[turned - 1]?.[action === 'undo' ? 'undo' : 'redo'] ?? null;
  const stacks = action === 'undo' ? { undo: below, redo: revision } : { undo: revision, redo: below };
  return fine({ stepId, action, header: after, step, ...stacks });
}
