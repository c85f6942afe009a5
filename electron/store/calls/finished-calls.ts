/** The calls about finished headers as records: whether they are what was finished, and lines of a file that bring them back. */

import { type Problem, success } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { Handlers, ReadOnly } from '../../bridge/dispatcher.ts';
import { bringBack } from '../finished/bring-back.ts';
import { readFinishedLine } from '../finished/line.ts';
import { damageIn } from '../header/opened-header.ts';
import type { Tables } from '../tables.ts';
import type { CallContext } from './call-context.ts';

type BroughtBack = ReadOnly<ResponseOf<'bringBackFinished'>>;

export function finishedCalls({ connection, newId }: CallContext) {
  return {
    checkFinished: ({ headerIds }) =>
      connection.read((tables) => ({
        altered: headerIds.flatMap((headerId) => {
          const problem = damageOf(tables, headerId);
          return problem === null ? [] : [{ headerId, problem }];
        }),
      })),
    /** All lines in one transaction: each header is there whole, or not at all, whatever comes between. */
    bringBackFinished: ({ lines }) =>
      connection.use((tables) =>
        tables.inTransaction<BroughtBack, Problem>(() =>
          success({ lines: lines.map(({ line, text }) => broughtBack(tables, { line, text }, newId)) }),
        ),
      ),
  } satisfies Partial<Handlers>;
}

/** Rows that are read must fit each other. */
function damageOf(tables: Tables, headerId: string): Problem | null {
  const found = tables.inTransaction<Problem | null, never>(() => success(damageIn(tables, headerId)), 'DEFERRED');
  return found.ok ? found.value : null;
}

function broughtBack(
  tables: Tables,
  { line, text }: { readonly line: number; readonly text: string },
  newId: () => string,
): BroughtBack['lines'][number] {
  const read = readFinishedLine(text);
  if (read.ok) return { line, name: read.value.record.header.name, ...bringBack(tables, read.value, newId) };
  const [problem = { kind: 'unreadableFile', reason: 'notFinished', path: [], detail: '' } as const] = read.problems;
  return { kind: 'refused', line, problem };
}
