/** The calls that make a header: a new one, a duplicate, or one that comes from a file; and the one that writes the file. */

import {
  checkHeader,
  copyHeader,
  demoHeader,
  exceedsFileSize,
  failure,
  HEADER_FILE_EXTENSION,
  type Header,
  mirroredHeader,
  newHeader,
  type Problem,
  type Result,
  rebuiltHeader,
  type Settings,
  safeFileName,
  success,
  writeHeader,
} from '../../../core/index.ts';
import type { Handlers } from '../../bridge/dispatcher.ts';
import { headerRefSchema } from '../../bridge/messages.ts';
import { withCopiedNote } from '../header/copied-note.ts';
import { keepHeader } from '../header/keep-header.ts';
import { type OpenedHeader, openedHeader, problemWith, readWhole } from '../header/opened-header.ts';
import { readHeader } from '../header/read-header.ts';
import type { Tables } from '../tables.ts';
import type { CallContext } from './call-context.ts';

export function copyCalls({ connection, host, clock, newId }: CallContext) {
  const keepOnce = (request: { readonly requestId: string }, make: (tables: Tables) => Result<Header, Problem>) =>
    connection.use((tables) => keptOnce(tables, request, { make: () => make(tables), changedAt: clock() }));
  return {
    createHeader: (request) =>
      keepOnce(request, (tables) => {
        const { name, from } = request;
        const id = newId();
        return success(from === 'demo' ? { ...demoHeader(id), name } : newHeader({ id, name }, settingsBefore(tables)));
      }),
    duplicateHeader: (request) =>
      keepOnce(request, (tables) => {
        const stored = readHeader(tables, request.headerId);
        if (!stored.ok) return stored;
        const header = withCopiedNote(stored.value.header, problemWith(tables, request.headerId, stored.value));
        const as = { id: newId(), name: request.name };
        if (request.as === 'same') return success(copyHeader(header, as));
        return success(rebuiltHeader(request.as === 'mirrored' ? mirroredHeader(header) : header, as));
      }),
    importHeader: (request) =>
      keepOnce(request, () => {
        // The contract checks values; that every reference leads somewhere is checked here.
        const checked = checkHeader(request.header);
        return checked.ok ? success(copyHeader(checked.value, { id: newId(), name: request.header.name })) : checked;
      }),
    async exportHeader({ headerId }) {
      const stored = connection.use((tables) => readWhole(tables, headerId));
      if (!stored.ok) return stored;
      const { header } = stored.value;
      const text = writeHeader(header);
      if (exceedsFileSize(text))
        return failure({ kind: 'unreadableFile', reason: 'tooLargeToWrite', path: [], detail: '10 MiB' });
      return success(await host.saveFile(safeFileName(header.name, HEADER_FILE_EXTENSION), 'application/json', text));
    },
  } satisfies Partial<Handlers>;
}

/** Settings of the header that was changed last and can be read; null when there is none. */
function settingsBefore(tables: Tables): Settings | null {
  const [last] = tables.headers.list('bench');
  const stored = last === undefined ? null : readHeader(tables, last.headerId);
  return stored?.ok === true ? stored.value.header.settings : null;
}

/** Once for a request, however often it is sent; opens what it made as that is now. */
function keptOnce(
  tables: Tables,
  request: { readonly requestId: string },
  { make, changedAt }: { readonly make: () => Result<Header, Problem>; readonly changedAt: Date },
): Result<OpenedHeader, Problem> {
  return tables.inTransaction(() => {
    const kept = tables.requests.once(request, headerRefSchema, () => {
      const made = make();
      if (!made.ok) return made;
      keepHeader(tables, made.value, { stepId: request.requestId, changedAt });
      tables.settings.rememberHeader(made.value.id);
      return success({ headerId: made.value.id });
    });
    return kept.ok ? openedHeader(tables, kept.value.headerId) : kept;
  });
}
