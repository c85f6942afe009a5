/** The question asked when a window is closed and steps could not be saved: wait, save a copy, discard. */

import { type BrowserWindow, dialog } from 'electron';
import { HEADER_FILE_EXTENSION, safeFileName, writeHeader } from '../../core/index.ts';
import type { Unsaved } from '../bridge/contract.ts';
import { saveWithDialog } from './save-dialog.ts';

type Answer = 'wait' | 'copy' | 'discard';

interface Question {
  readonly message: string;
  readonly detail: string;
  /** The safest first. */
  readonly buttons: readonly (readonly [answer: Answer, label: string])[];
}

const WAIT = ['wait', 'Wait'] as const;
const DISCARD = ['discard', 'Discard'] as const;

function questionAbout({ header, steps, reason }: Unsaved): Question {
  const count = steps === 1 ? '1 step is' : `${steps} steps are`;
  return {
    message: `${count} not saved in ${header.name}`,
    detail: [
      `Not saved: ${reason}`,
      'Wait: the window stays open and saving is tried again. Close it once all is saved.',
      'Save a copy: the header as it is on screen goes into a file of its own, and the window closes.',
      `Discard: the window closes without ${steps === 1 ? 'this step' : 'these steps'}.`,
    ].join('\n\n'),
    buttons: [WAIT, ['copy', 'Save a copy…'], DISCARD],
  };
}

/** There is no copy to save: only the page knew what it held. */
const SILENT: Question = {
  message: 'The page does not answer',
  detail: [
    'Everything that was marked as saved is on disk. Whether anything else is held is not known.',
    'Wait: the window stays open.',
    'Discard: the window closes without what may not be saved.',
  ].join('\n\n'),
  buttons: [WAIT, DISCARD],
};

async function answerOf(window: BrowserWindow, question: Question, allSaved: AbortSignal): Promise<Answer> {
  const { response } = await dialog.showMessageBox(window, {
    type: 'warning',
    title: 'Evenrun',
    message: question.message,
    detail: question.detail,
    buttons: question.buttons.map(([, label]) => label),
    defaultId: 0,
    cancelId: 0,
    noLink: true,
    signal: allSaved,
  });
  return question.buttons[response]?.[0] ?? 'wait';
}

async function isCopySaved(window: BrowserWindow, { header }: Unsaved): Promise<boolean> {
  const fileName = safeFileName(`${header.name} (copy)`, HEADER_FILE_EXTENSION);
  const saved = await saveWithDialog(window, { fileName, mediaType: 'application/json', content: writeHeader(header) });
  return saved.kind === 'saved';
}

/**
 * Whether the window may go. `unsaved` null: the page did not say what it holds. The question ends by itself when all is saved
 * meanwhile, and is asked again when no copy came about.
 */
export async function mayLeaveUnsaved(
  window: BrowserWindow,
  unsaved: Unsaved | null,
  allSaved: AbortSignal,
): Promise<boolean> {
  for (;;) {
    const answer = await answerOf(window, unsaved === null ? SILENT : questionAbout(unsaved), allSaved);
    if (allSaved.aborted || answer === 'discard') return true;
    if (answer === 'wait') return false;
    if (unsaved !== null && (await isCopySaved(window, unsaved))) return true;
  }
}
