/** The calls that make a header from another: a duplicate, or one that comes from a file; and the one that writes the file. */

import {
  checkHeader,
  copyHeader,
  HEADER_FILE_EXTENSION,
  safeFileName,
  success,
  writeHeader,
} from '../../../core/index.ts';
import type { Handlers } from '../../bridge/dispatcher.ts';
import { keepHeader, readWhole } from '../header/opened-header.ts';
import type { CallContext } from './call-context.ts';

type CopyCalls = Pick<Handlers, 'duplicateHeader' | 'importHeader' | 'exportHeader'>;

export function copyCalls({ connection, host, clock, newId }: CallContext): CopyCalls {
  return {
    duplicateHeader: ({ headerId, name }) =>
      connection.use((tables) => {
        const stored = readWhole(tables, headerId);
        if (!stored.ok) return stored;
        return keepHeader(tables, copyHeader(stored.value.header, { id: newId(), name }), clock());
      }),
    importHeader: ({ header }) =>
      connection.use((tables) => {
        // The contract checks values; that every reference leads somewhere is checked here.
        const checked = checkHeader(header);
        if (!checked.ok) return checked;
        return keepHeader(tables, copyHeader(checked.value, { id: newId(), name: header.name }), clock());
      }),
    async exportHeader({ headerId }) {
      const stored = connection.use((tables) => readWhole(tables, headerId));
      if (!stored.ok) return stored;
      const { header } = stored.value;
      const fileName = safeFileName(header.name, HEADER_FILE_EXTENSION);
      return success(await host.saveFile(fileName, 'application/json', writeHeader(header)));
    },
  };
}
