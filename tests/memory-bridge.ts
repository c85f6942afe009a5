/** A bridge to headers in memory, for tests of the page's own logic: same answers as the store, and faults on demand. */

import { applyEdit } from '../core/edits/apply-edit.ts';
import { describeEdit } from '../core/edits/describe-edit.ts';
import type { Header } from '../core/header/header.ts';
import type { Problem } from '../core/problem.ts';
import type { StockItem } from '../core/stock/stock-item.ts';
import type { CallName, HostBridge, Reply, RequestOf, ResponseOf } from '../electron/bridge/contract.ts';

type Opened = ResponseOf<'openHeader'>;

interface Kept {
  readonly opened: Opened;
  /** Revision that each step id brought about. */
  readonly steps: ReadonlyMap<string, number>;
}

/** What happens to the next call of a name: it never arrives, its answer is lost, or it answers with a problem. */
export type Fault =
  | { readonly kind: 'neverArrives' }
  | { readonly kind: 'answerLost' }
  | { readonly kind: 'problem'; readonly problem: Problem };

type Answers = { readonly [Name in CallName]?: (request: RequestOf<Name>) => Reply<Name> };

const fine = <Value>(value: Value) => ({ ok: true as const, value });
const trouble = (problem: Problem) => ({ ok: false as const, problems: [problem] });

export class MemoryBridge implements HostBridge {
  readonly host = 'browser';
  /** Every call that arrived, in order. */
  readonly calls: { readonly name: CallName; readonly request: unknown }[] = [];
  stock: readonly StockItem[] = [];
  readonly #kept = new Map<string, Kept>();
  readonly #faults: { readonly name: CallName; readonly fault: Fault }[] = [];
  /** Calls wait here while the bridge is held. */
  #gate: { readonly opened: Promise<void>; readonly open: () => void } | null = null;

  constructor(...headers: readonly Header[]) {
    for (const header of headers) {
      this.#kept.set(header.id, {
        opened: { header, revision: 0, undo: [], redo: [], draft: null },
        steps: new Map(),
      });
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
    return kept.opened;
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
    openHeader: ({ headerId }) => {
      const kept = this.#kept.get(headerId);
      return kept === undefined ? missing(headerId) : fine(kept.opened);
    },
    readRevision: ({ headerId }) => {
      const kept = this.#kept.get(headerId);
      if (kept === undefined) return missing(headerId);
      return fine({ revision: kept.opened.revision, state: kept.opened.header.state });
    },
    commitSteps: (request) => this.#commit(request),
    saveDraft: ({ headerId, draft }) => {
      const kept = this.#kept.get(headerId);
      if (kept === undefined) return missing(headerId);
      this.#kept.set(headerId, { ...kept, opened: { ...kept.opened, draft } });
      return fine({});
    },
    importHeader: ({ header }) => {
      const opened: Opened = { header, revision: 0, undo: [], redo: [], draft: null };
      this.#kept.set(header.id, { opened, steps: new Map() });
      return fine(opened);
    },
    listStock: () => fine({ stock: this.stock.map((item) => ({ item, revision: 1 })) }),
  };

  #commit({ headerId, baseRevision, steps, draft }: RequestOf<'commitSteps'>): Reply<'commitSteps'> {
    const kept = this.#kept.get(headerId);
    if (kept === undefined) return missing(headerId);
    const known = steps.filter((step) => kept.steps.has(step.stepId));
    const expected = known.length === 0 ? baseRevision : (kept.steps.get(known.at(-1)?.stepId ?? '') ?? baseRevision);
    const fresh = steps.slice(known.length);
    if (fresh.length === 0) {
      if (draft !== undefined) this.#kept.set(headerId, { ...kept, opened: { ...kept.opened, draft } });
      return fine({ revision: expected });
    }
    if (kept.opened.header.state === 'finished') return trouble({ kind: 'finished', name: kept.opened.header.name });
    if (kept.opened.revision !== expected) {
      return trouble({ kind: 'changedElsewhere', expected, found: kept.opened.revision });
    }
    let opened = draft === undefined ? kept.opened : { ...kept.opened, draft };
    const ids = new Map(kept.steps);
    for (const step of fresh) {
      const next = commitOne(opened, step);
      if (!next.ok) return next;
      opened = next.value;
      ids.set(step.stepId, opened.revision);
    }
    this.#kept.set(headerId, { opened, steps: ids });
    return fine({ revision: opened.revision });
  }
}

function missing(headerId: string) {
  return trouble({ kind: 'notFound', what: 'header', id: headerId });
}

type Step = RequestOf<'commitSteps'>['steps'][number];

function commitOne(opened: Opened, step: Step): Reply<'openHeader'> {
  const back = step.action === 'do' ? null : (step.action === 'undo' ? opened.undo : opened.redo).at(-1);
  if (back === undefined && step.action !== 'do') return trouble({ kind: 'nothingToUndo', action: step.action });
  const edit = step.action === 'do' ? step.edit : step.action === 'undo' ? back?.inverse : back?.edit;
  const applied = edit === undefined ? null : applyEdit(opened.header, edit);
  if (applied === null || edit === undefined) return trouble({ kind: 'internal', reference: 'no edit' });
  if (!applied.ok) return applied;
  const after = { ...opened, header: applied.value.header, revision: opened.revision + 1 };
  if (step.action === 'do' || back === undefined || back === null) {
    const made = { label: describeEdit(edit, opened.header), edit, inverse: applied.value.inverse };
    return fine({ ...after, undo: [...opened.undo, made], redo: [] });
  }
  return step.action === 'undo'
    ? fine({ ...after, undo: opened.undo.slice(0, -1), redo: [...opened.redo, back] })
    : fine({ ...after, undo: [...opened.undo, back], redo: opened.redo.slice(0, -1) });
}
