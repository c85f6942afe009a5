/** Commands about the open header as a whole. */

import type { OfferedCommand } from '../../commands/command.ts';
import { exportUnsaved } from '../../headers/export-unsaved.ts';
import type { HeaderActs, HeaderAsked } from '../../session/header-acts.ts';
import type { Notice } from '../../ui/notices.tsx';
import type { Screen } from '../../ui/screen.ts';
import type { Workshop } from '../use-workshop.ts';
import { FINISHED, NO_HEADER, NOT_ON_BENCH } from './unavailable-words.ts';

interface Context {
  readonly workshop: Workshop;
  readonly acts: HeaderActs;
  readonly isFinished: boolean;
  readonly notFinish: string | null;
  readonly say: (notice: Notice) => void;
}

export function headerCommands(context: Context): readonly OfferedCommand[] {
  return [...startCommands(context), ...openHeaderCommands(context)];
}

function startCommands({ workshop }: Context): readonly OfferedCommand[] {
  return [
    { id: 'newHeader', run: () => workshop.setDialog('newHeader') },
    { id: 'listHeaders', run: () => workshop.goTo({ kind: 'headers' }) },
    { id: 'importFile', run: () => workshop.imports.ask('header') },
  ];
}

/** Acts on the open header as it is on disk: everything held must be there first, and if it cannot be, that is said. */
function afterFlush({ workshop, say }: Context, act: (header: HeaderAsked) => Promise<void>): () => void {
  return () => {
    const { session } = workshop;
    const reason = workshop.open.whyItMustStay();
    if (session === null) return;
    if (reason !== null) say({ text: reason, tone: 'trouble' });
    else void workshop.flush().then(() => act({ headerId: session.headerId, name: session.getState().header.name }));
  };
}

/** What cannot reach the disk can still leave as a file. */
function exportOpen(context: Context): () => void {
  const { workshop, acts } = context;
  return () => {
    const state = workshop.session?.getState();
    if (state?.save.kind === 'notSaved') exportUnsaved(state.header);
    else afterFlush(context, (header) => acts.exportFile(header))();
  };
}

/** What is printed from which screen, where it is not the bench's own name. */
const PRINTED: { readonly [Kind in Screen['kind']]?: { readonly name?: string } } = {
  bench: {},
  cutplan: { name: 'Print the cut plan' },
  compare: { name: 'Print the comparison' },
};

function openHeaderCommands(context: Context): readonly OfferedCommand[] {
  const { workshop, acts } = context;
  const unavailable = workshop.session === null ? NO_HEADER : null;
  // The paper shows what is on the screen.
  const { kind: screen } = workshop.screen;
  const printed = PRINTED[screen];
  const offBench = printed === undefined ? NOT_ON_BENCH : null;
  const printsAlone = screen === 'compare';
  const frozen = unavailable ?? (context.isFinished ? FINISHED : null);
  const duplicate = async (header: HeaderAsked) => {
    const opened = await acts.duplicate(header);
    if (opened !== null) workshop.going.openGiven(opened);
  };
  const bin = async (header: HeaderAsked) => {
    if (!(await acts.bin(header, () => workshop.going.openById(header.headerId)))) return;
    workshop.open.drop();
    workshop.goTo({ kind: 'headers' });
  };
  return [
    { id: 'exportHeader', unavailable, run: exportOpen(context) },
    {
      id: 'printBench',
      ...printed,
      unavailable: printsAlone ? null : (unavailable ?? offBench),
      run: () => window.print(),
    },
    { id: 'renameHeader', unavailable: frozen, run: () => workshop.setRenaming(true) },
    { id: 'duplicateHeader', unavailable, run: afterFlush(context, duplicate) },
    { id: 'finishHeader', unavailable: frozen ?? context.notFinish, run: () => workshop.setDialog('finish') },
    { id: 'binHeader', unavailable, run: afterFlush(context, bin) },
  ];
}
