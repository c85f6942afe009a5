/** The calls about pictures of a header: which there are, the file of one, and their changes while the header is open. */

import {
  failure,
  PICTURE_BYTES_LIMIT,
  PICTURES_LIMIT,
  type Problem,
  pictureTypeOf,
  type Result,
  success,
} from '../../../core/index.ts';
import { contract, type RequestOf, type ResponseOf } from '../../bridge/contract.ts';
import type { Handlers, ReadOnly } from '../../bridge/dispatcher.ts';
import { notFound } from '../header/opened-header.ts';
import type { StoredRow } from '../rows/columns.ts';
import type { Tables } from '../tables.ts';
import type { CallContext } from './call-context.ts';

type Pictures = ReadOnly<ResponseOf<'listPictures'>>;

export function pictureCalls({ connection, newId }: CallContext) {
  return {
    listPictures: ({ headerId }) => connection.read((tables) => listed(tables, headerId)),
    readPicture: ({ headerId, pictureId }) =>
      connection.use(({ pictures }) => {
        const row = pictures.find(headerId, pictureId);
        if (row === null) return gone(pictureId);
        const file = pictures.file(row);
        return success({ content: file === null ? null : Buffer.from(file).toString('base64') });
      }),
    addPicture: (request) =>
      connection.use((tables) =>
        tables.inTransaction(() =>
          tables.requests.once<Pictures>(request, contract.addPicture.response, () => added(tables, request, newId())),
        ),
      ),
    changePicture: ({ headerId, pictureId, change }) =>
      connection.use((tables) =>
        tables.inTransaction<Pictures, Problem>(() => {
          const refused = whyNoChange(tables, headerId);
          if (refused) return refused;
          const row = tables.pictures.find(headerId, pictureId);
          if (row === null) return gone(pictureId);
          makeChange(tables, row, change);
          return success(listed(tables, headerId));
        }),
      ),
  } satisfies Partial<Handlers>;
}

function listed({ pictures }: Tables, headerId: string): Pictures {
  return { pictures: pictures.list(headerId) };
}

function gone(id: string): Result<never, Problem> {
  return failure({ kind: 'notFound', what: 'picture', id });
}

/** In a transaction, so that no header is finished in between. */
function whyNoChange({ journal }: Tables, headerId: string): Result<never, Problem> | null {
  const newest = journal.newest(headerId);
  if (!newest) return notFound(headerId);
  return newest.state === 'finished' ? failure({ kind: 'finished', name: newest.name }) : null;
}

function added(tables: Tables, { headerId, picture }: RequestOf<'addPicture'>, id: string): Result<Pictures, Problem> {
  const refused = whyNoChange(tables, headerId);
  if (refused) return refused;
  const { content, ...facts } = picture;
  const bytes = Buffer.from(content, 'base64');
  if (bytes.length > PICTURE_BYTES_LIMIT || pictureTypeOf(bytes) !== facts.mediaType)
    return failure({ kind: 'invalidRequest', call: 'addPicture', detail: `no ${facts.mediaType} of a bearable size` });
  if (tables.pictures.list(headerId).length >= PICTURES_LIMIT)
    return failure({ kind: 'tooMany', path: ['pictures'], limit: PICTURES_LIMIT });
  tables.pictures.add(headerId, { id, ...facts }, bytes);
  return success(listed(tables, headerId));
}

function makeChange(
  { pictures }: Tables,
  row: StoredRow<'pictures'>,
  change: RequestOf<'changePicture'>['change'],
): void {
  switch (change.kind) {
    case 'caption':
      pictures.setCaption(row, change.caption);
      return;
    case 'move':
      pictures.move(row, change.to);
      return;
    case 'remove':
      pictures.remove(row);
  }
}
