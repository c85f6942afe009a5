/** What the note of a copy says of a header that was not sound, so that nobody builds from it as if it were. */

import { type Header, noteBelow, type Problem } from '../../../core/index.ts';

/** The header with that sentence above its own note; as it is where nothing was wrong. */
export function withCopiedNote(header: Header, problem: Problem | null): Header {
  const sentence = problem === null ? null : sentenceOf(problem, header.name);
  return sentence === null ? header : { ...header, note: noteBelow(sentence, header.note) };
}

function sentenceOf({ kind }: Problem, name: string): string | null {
  switch (kind) {
    case 'alteredHeader':
      return `Copied from "${name}", which was no longer as it was finished. Check every figure before you build from it.`;
    case 'damagedHeader':
      return `Copied from "${name}", which was damaged on disk: its last steps may be missing.`;
    default:
      return null;
  }
}
