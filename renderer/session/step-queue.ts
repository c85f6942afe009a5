/** Sends the steps of one header to the host in order, one request at a time, until each is acknowledged. */

import { describeProblem, type Problem } from '../../core/index.ts';
import type { HostBridge, RequestOf, ResponseOf } from '../../electron/bridge/contract.ts';
import type { Timers } from '../ui/timers.ts';
import type { DraftKeeper } from './draft-keeper.ts';
import type { PendingStep, SaveMark } from './session-state.ts';

/** The contract takes no more steps than this in one request. */
const STEPS_PER_REQUEST = 500;
const FIRST_WAIT_MS = 200;
const LONGEST_WAIT_MS = 5_000;

type WireStep = RequestOf<'commitSteps'>['steps'][number];

export type AfterPaint = (act: () => void) => void;

export interface QueueEvents {
  /** The save mark or the count of waiting steps changed. */
  readonly changed: () => void;
  /** An undo or redo took a cut plan back, or did it again, on the shelf as well. */
  readonly movedStock: () => void;
  /** The host refused for a reason that sending again cannot mend: someone else changed the header, or the shelf. */
  readonly refused: (problems: readonly Problem[]) => void;
}

export interface QueueParts {
  readonly bridge: HostBridge;
  readonly headerId: string;
  readonly timers: Timers;
  /** Calls back once the change has been drawn, within some tens of ms whatever happens; left out: at once. */
  readonly afterPaint?: AfterPaint | undefined;
  readonly events: QueueEvents;
  /** Text typed and not taken, which goes along with the steps. */
  readonly drafts: Pick<DraftKeeper, 'carry' | 'carried'>;
}

const UNREACHABLE = 'the part of the program that saves does not answer. It is tried again until it does.';

function wireStep(step: PendingStep): WireStep {
  return step.action === 'do'
    ? { action: 'do', stepId: step.stepId, edit: step.edit }
    : { action: step.action, stepId: step.stepId };
}

/** Whether the same request may succeed later: a full disk or a busy file passes, a foreign change does not. */
function passes({ kind }: Problem): boolean {
  return kind === 'storage' || kind === 'internal' || kind === 'invalidRequest' || kind === 'pageUnknown';
}

/**
 * A request that got no answer is sent again unchanged, with the same step ids: the host commits each id once,
 * so it does not matter whether the first one had arrived.
 */
export class StepQueue {
  readonly #parts: QueueParts;
  #waiting: readonly PendingStep[] = [];
  #sending: readonly PendingStep[] = [];
  #revision: number;
  #trouble: string | null = null;
  #waitMs = FIRST_WAIT_MS;
  #timer: unknown = null;
  #halted = false;
  #inFlight = false;
  #idleWaiters: (() => void)[] = [];

  constructor(parts: QueueParts, revision: number) {
    this.#parts = parts;
    this.#revision = revision;
  }

  get revision(): number {
    return this.#revision;
  }

  /** Steps that are not known to be on disk, oldest first. */
  get unacknowledged(): readonly PendingStep[] {
    return [...this.#sending, ...this.#waiting];
  }

  get mark(): SaveMark {
    if (this.#trouble !== null) return { kind: 'notSaved', reason: this.#trouble };
    return this.isIdle ? { kind: 'saved' } : { kind: 'saving' };
  }

  get isIdle(): boolean {
    return this.#sending.length === 0 && this.#waiting.length === 0;
  }

  add(step: PendingStep): void {
    this.#waiting = [...this.#waiting, step];
    this.#parts.events.changed();
    // The step counts as waiting from here on; making its request would hold up the very frame that shows it.
    if (this.#parts.afterPaint === undefined) this.#send();
    else this.#parts.afterPaint(() => this.#send());
  }

  /** Settles when every step so far is acknowledged; not while the host is unreachable or refuses. */
  idle(): Promise<void> {
    if (this.isIdle) return Promise.resolve();
    return new Promise((resolve) => this.#idleWaiters.push(resolve));
  }

  /** Sends at once what waits for the next frame or for its next try. */
  retryNow(): void {
    if (this.#timer !== null) this.#parts.timers.clear(this.#timer);
    this.#timer = null;
    this.#send();
  }

  /** Forgets what was not acknowledged and goes on from the given revision with the given steps. */
  restart(revision: number, steps: readonly PendingStep[]): void {
    this.#revision = revision;
    this.#sending = [];
    this.#waiting = steps;
    this.#trouble = null;
    this.#halted = false;
    this.#waitMs = FIRST_WAIT_MS;
    this.#settleIdle();
    this.#parts.events.changed();
    this.#send();
  }

  #send(): void {
    if (this.#inFlight || this.#halted || this.#timer !== null) return;
    if (this.#sending.length === 0) {
      this.#sending = this.#waiting.slice(0, STEPS_PER_REQUEST);
      this.#waiting = this.#waiting.slice(STEPS_PER_REQUEST);
    }
    if (this.#sending.length === 0) return;
    this.#inFlight = true;
    void this.#exchange(this.#sending);
  }

  async #exchange(steps: readonly PendingStep[]): Promise<void> {
    const { bridge, headerId, drafts } = this.#parts;
    const request = { headerId, baseRevision: this.#revision, steps: steps.map(wireStep) };
    // Text taken by a step that still waits is safe nowhere but in its draft.
    const draft = this.#waiting.length === 0 ? drafts.carry() : undefined;
    const reply = await bridge
      .call('commitSteps', draft === undefined ? request : { ...request, draft })
      .catch(() => null);
    this.#inFlight = false;
    if (draft !== undefined) drafts.carried(draft, reply?.ok === true);
    if (reply === null) this.#tryLater(UNREACHABLE);
    else if (reply.ok) this.#acknowledge(reply.value);
    else if (reply.problems.every(passes)) this.#tryLater(reply.problems.map(describeProblem).join(' '));
    else this.#halt(reply.problems);
  }

  #acknowledge({ revision, movedStock }: ResponseOf<'commitSteps'>): void {
    if (movedStock) this.#parts.events.movedStock();
    this.#revision = revision;
    this.#sending = [];
    this.#trouble = null;
    this.#waitMs = FIRST_WAIT_MS;
    this.#settleIdle();
    this.#parts.events.changed();
    this.#send();
  }

  #tryLater(trouble: string): void {
    this.#trouble = trouble;
    this.#timer = this.#parts.timers.set(() => {
      this.#timer = null;
      this.#send();
    }, this.#waitMs);
    this.#waitMs = Math.min(this.#waitMs * 2, LONGEST_WAIT_MS);
    this.#parts.events.changed();
  }

  #halt(problems: readonly Problem[]): void {
    this.#halted = true;
    this.#trouble = problems.map(describeProblem).join(' ');
    this.#parts.events.changed();
    this.#parts.events.refused(problems);
  }

  #settleIdle(): void {
    if (!this.isIdle) return;
    const waiters = this.#idleWaiters;
    this.#idleWaiters = [];
    for (const settle of waiters) settle();
  }

  /** Stops trying; nothing is sent from here on. */
  close(): void {
    this.#halted = true;
    if (this.#timer !== null) this.#parts.timers.clear(this.#timer);
    this.#timer = null;
  }
}
