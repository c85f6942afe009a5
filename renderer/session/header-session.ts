/** One open header: applies every edit at once, sends it to the host, and knows whether all of it is safe. */

import {
  applyEdit,
  describeEdit,
  type Edit,
  failure,
  type Header,
  type LengthStyle,
  matchHeader,
  newId,
  type Problem,
  type Result,
  success,
} from '../../core/index.ts';
import type { HostBridge, Unsaved } from '../../electron/bridge/contract.ts';
import { CopyBeside } from './copy-beside.ts';
import { DraftKeeper } from './draft-keeper.ts';
import { ReadAhead } from './read-ahead.ts';
import { asPending, rebaseSteps, withoutTurns } from './rebase.ts';
import type { SessionParts } from './session-parts.ts';
import {
  type ConflictChoice,
  type OpenedHeader,
  type PendingStep,
  type SessionState,
  takesNoSteps,
} from './session-state.ts';
import { StepHistory } from './step-history.ts';
import { StepQueue } from './step-queue.ts';
import { VersionOnDisk } from './version-on-disk.ts';

const LOOK_AGAIN_MS = 1_000;

export class HeaderSession {
  readonly bridge: HostBridge;
  readonly headerId: string;
  readonly #parts: SessionParts;
  readonly #queue: StepQueue;
  readonly #drafts: DraftKeeper;
  readonly #listeners = new Set<() => void>();
  readonly #committers = new Set<() => void>();
  #history: StepHistory;
  readonly #ahead: ReadAhead;
  readonly #copy: CopyBeside;
  readonly #onDisk: VersionOnDisk;
  #state: SessionState;

  constructor(opened: OpenedHeader, parts: SessionParts) {
    const { bridge } = parts;
    const headerId = opened.header.id;
    this.bridge = bridge;
    this.headerId = headerId;
    this.#parts = parts;
    this.#history = new StepHistory(opened);
    this.#ahead = new ReadAhead(bridge, headerId);
    this.#copy = new CopyBeside(bridge, () => this.newId());
    this.#onDisk = new VersionOnDisk(bridge, headerId);
    this.#drafts = new DraftKeeper(bridge, headerId, { kept: opened.draft, mayClear: () => this.#queue.isIdle });
    const events = {
      changed: () => this.#queueChanged(),
      movedStock: () => this.#set({ stockMoves: this.#state.stockMoves + 1 }),
      refused: (problems: readonly Problem[]) => void this.#refused(problems),
    };
    this.#queue = new StepQueue({ ...parts, headerId, events, drafts: this.#drafts }, opened.revision);
    this.#state = {
      header: opened.header,
      report: matchHeader(opened.header),
      save: this.#queue.mark,
      ...this.#history.labels,
      conflict: null,
      dropped: [],
      draft: opened.draft,
      damage: opened.damage,
      stockMoves: 0,
    };
    void this.#readAhead();
  }

  readonly getState = (): SessionState => this.#state;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  /** The revision that the host last acknowledged. */
  get revision(): number {
    return this.#queue.revision;
  }

  /** Steps that are not known to be on disk, oldest first. */
  get pendingSteps(): readonly PendingStep[] {
    return this.#queue.unacknowledged;
  }

  /** A new id for something that an edit brings into the header. */
  newId(): string {
    return newId(this.#parts.random);
  }

  /** Makes the change here at once and sends it; a change that core refuses changes nothing. */
  apply(edit: Edit): Result<Header, Problem> {
    const { header: before, damage } = this.#state;
    // The host takes nothing more for a header that is damaged there.
    if (damage !== null) return failure(damage);
    const applied = applyEdit(before, edit);
    if (!applied.ok) return failure(...applied.problems);
    const label = describeEdit(edit, before);
    this.#history.add({ label, edit, inverse: applied.value.inverse });
    this.#show(applied.value.header);
    this.#queue.add({ stepId: this.newId(), action: 'do', label, edit, before });
    return success(applied.value.header);
  }

  /** Shows a header that takes no steps in another unit: nothing of it is stored or sent. */
  showIn(display: LengthStyle): void {
    if (!takesNoSteps(this.#state)) return;
    const { settings, ...rest } = this.#state.header;
    const header = { ...rest, settings: { ...settings, display } };
    this.#set({ header, report: matchHeader(header) });
  }

  /** Takes back the last step; false when there is none. */
  undo(): boolean {
    return this.#travel('undo');
  }

  /** Makes the last step that was taken back again; false when there is none. */
  redo(): boolean {
    return this.#travel('redo');
  }

  /** Remembers text that stands in a field without having been accepted; empty text forgets it. */
  typed(field: string, text: string): void {
    this.#drafts.typed(field, text);
  }

  /** What was typed into the field, this time or last, and has not been accepted; empty when there is nothing. */
  textIn(field: string): string {
    return this.#drafts.textIn(field);
  }

  /** Called by the field that shows the text left over from last time. */
  takeDraft(): void {
    if (this.#state.draft !== null) this.#set({ draft: null });
  }

  /** A field registers how to commit what it holds; returns the function that unregisters it. */
  addCommitter(commit: () => void): () => void {
    this.#committers.add(commit);
    return () => this.#committers.delete(commit);
  }

  /**
   * Commits the fields being typed in and waits until all is on disk.
   * Text that cannot be read stays in its field and is kept as a draft.
   */
  async flush(): Promise<void> {
    for (const commit of [...this.#committers]) commit();
    this.#queue.retryNow();
    await this.#queue.idle();
    this.#drafts.pump();
    await this.#drafts.idle();
  }

  /** What is not known to be on disk, and why; null when all of it is. */
  unsaved(): Unsaved | null {
    const steps = this.#queue.unacknowledged.length;
    if (steps === 0) return null;
    const { header, save } = this.#state;
    return { header, steps, reason: save.kind === 'notSaved' ? save.reason : 'the disk is slow to answer.' };
  }

  /** Tries at once to send what waits after a failure. */
  retryNow(): void {
    this.#queue.retryNow();
  }

  /** Asks whether another window changed the header, and shows the change when nothing of ours is on its way. */
  async lookForChanges(): Promise<void> {
    const asked = this.#queue.revision;
    const settled = () => this.#queue.isIdle && this.#queue.revision === asked && this.#state.conflict === null;
    // The host counts steps of a damaged header that cannot be shown.
    if (!settled() || this.#state.damage !== null) return;
    const reply = await this.bridge.call('readRevision', { headerId: this.headerId }).catch(() => null);
    if (reply?.ok !== true || reply.value.revision === asked || !settled()) return;
    const opened = await this.#onDisk.open();
    if (opened !== null && settled()) this.#take(opened, []);
  }

  /**
   * Ends a conflict. `mineOnTop` makes our steps again on what is on disk, `theirs` drops them, `mineAsCopy` drops them
   * here and puts our document beside theirs as a header of its own, which is returned.
   */
  async settleConflict(choice: ConflictChoice): Promise<OpenedHeader | null> {
    if (this.#state.conflict === null) return null;
    const copy = choice === 'mineAsCopy' ? await this.#copy.make(this.#state.header) : null;
    if (choice === 'mineAsCopy' && copy === null) return null;
    const opened = await this.#onDisk.open();
    if (opened === null) {
      // All of mine is safe in the copy, and there is nothing left to send it to.
      if (copy !== null && this.#state.conflict.theirs === null) {
        this.#state = { ...this.#state, conflict: null };
        this.#queue.restart(this.#queue.revision, []);
      }
      return copy;
    }
    this.#take(opened, choice === 'mineOnTop' ? this.#queue.unacknowledged : []);
    return copy;
  }

  dismissDropped(): void {
    this.#set({ dropped: [] });
  }

  /** Stops sending and listening; call `flush` first. */
  close(): void {
    this.#queue.close();
    this.#listeners.clear();
  }

  #travel(action: 'undo' | 'redo'): boolean {
    const step = this.#history.pass(action);
    if (step === null) return false;
    const { label, isPlan } = step;
    const edit = action === 'undo' ? step.inverse : step.edit;
    const before = this.#state.header;
    const applied = applyEdit(before, edit);
    if (!applied.ok) throw new Error(`The history does not fit the header: ${action} of ${label}`);
    this.#show(applied.value.header);
    this.#queue.add({ stepId: this.newId(), action, label, edit, before, isPlan });
    void this.#readAhead();
    return true;
  }

  /** Labels follow only while the history is still the one in hand. */
  #readAhead(): Promise<void> {
    const history = this.#history;
    return this.#ahead.fill(history, () => {
      if (history === this.#history) this.#set(history.labels);
    });
  }

  /** A cut plan that cannot be turned back, for stock or another header's pieces moved on: the other steps go on without that. Otherwise others changed the header. */
  async #refused(problems: readonly Problem[]): Promise<void> {
    const isOthers = problems.some(({ kind }) => kind === 'changedElsewhere' || kind === 'notFound');
    if (isOthers || !this.#queue.unacknowledged.some(({ isPlan }) => isPlan)) return await this.#enterConflict();
    const opened = await this.#onDisk.open();
    if (opened === null) return void this.#parts.timers.set(() => void this.#refused(problems), LOOK_AGAIN_MS);
    const { steps, refused } = withoutTurns(this.#queue.unacknowledged, problems);
    this.#take(opened, steps, refused);
  }

  /** Reads what is on disk and shows both; tries again until the host answers one way or the other. */
  async #enterConflict(): Promise<void> {
    const conflict = await this.#onDisk.besides(() => ({
      mine: this.#state.header,
      mySteps: this.#queue.unacknowledged.map((step) => step.label),
    }));
    if (conflict === null) this.#parts.timers.set(() => void this.#enterConflict(), LOOK_AGAIN_MS);
    else this.#set({ conflict });
  }

  /** Goes over to what is on disk, with `steps` made again on top of it. */
  #take(opened: OpenedHeader, steps: readonly PendingStep[], refused: SessionState['dropped'] = []): void {
    const { header, made, dropped } = rebaseSteps(opened.header, steps);
    this.#history = new StepHistory(opened);
    for (const step of made) this.#history.add(step);
    this.#show(header, { conflict: null, dropped: [...refused, ...dropped], damage: opened.damage });
    void this.#readAhead();
    this.#queue.restart(
      opened.revision,
      asPending(opened.header, made, () => this.newId()),
    );
  }

  #show(header: Header, more: Partial<Pick<SessionState, 'conflict' | 'dropped' | 'damage'>> = {}): void {
    this.#state = { ...this.#state, ...more, header, report: matchHeader(header), ...this.#history.labels };
    // Listeners are told by the queue, which changes with every step shown.
  }

  #queueChanged(): void {
    this.#set({ save: this.#queue.mark });
    this.#drafts.pump();
  }

  #set(change: Partial<SessionState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of [...this.#listeners]) listener();
  }
}
