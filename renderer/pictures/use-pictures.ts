/** The pictures of a header: read, added, changed, and put back after one was removed. */

import { useCallback, useEffect, useMemo, useState } from 'react';
import { PICTURES_LIMIT } from '../../core/index.ts';
import type { RequestOf, ResponseOf } from '../../electron/bridge/contract.ts';
import { useAsk } from '../host/host-bridge.ts';
import { useNotice } from '../ui/notices.tsx';
import { fitPicture } from './fit-picture.ts';

type Told = ResponseOf<'listPictures'>['pictures'][number];
type Change = RequestOf<'changePicture'>['change'];

export interface ShownPicture extends Told {
  /** What an `img` shows; null where the file is damaged, undefined while it is read. */
  readonly source: string | null | undefined;
}

export interface PicturesKeeper {
  /** In their order; null until they are read. */
  readonly pictures: readonly ShownPicture[] | null;
  /** Fits and adds them one after the other, up to the limit; says what was not added and why. */
  readonly add: (files: readonly File[]) => Promise<void>;
  readonly change: (picture: Told, change: Exclude<Change, { kind: 'remove' }>) => Promise<void>;
  /** The notice that says so offers to put it back. */
  readonly remove: (picture: ShownPicture) => Promise<void>;
}

const FULL = `A header takes at most ${PICTURES_LIMIT} pictures: remove one first.`;

export function usePictures(headerId: string): PicturesKeeper {
  const ask = useAsk();
  const say = useNotice();
  const [told, setTold] = useState<readonly Told[] | null>(null);
  const sources = useSources(headerId, told);
  const take = useCallback(
    (answer: Awaited<ReturnType<typeof ask<'listPictures'>>>) => {
      if (answer.ok) setTold(answer.value.pictures);
      else say({ text: answer.words, tone: 'trouble' });
      return answer.ok;
    },
    [say],
  );
  useEffect(() => {
    let isWanted = true;
    setTold(null);
    void ask('listPictures', { headerId }).then((answer) => isWanted && take(answer));
    return () => {
      isWanted = false;
    };
  }, [ask, take, headerId]);
  return useMemo(() => {
    const put = async (picture: RequestOf<'addPicture'>['picture']) =>
      take(await ask('addPicture', { headerId, picture }));
    return {
      pictures: told?.map((picture) => ({ ...picture, source: sources.get(picture.id) })) ?? null,
      async add(files) {
        const room = PICTURES_LIMIT - (told?.length ?? 0);
        const troubles = files.length > room ? [FULL] : [];
        for (const file of files.slice(0, Math.max(0, room))) {
          const fitted = await fitPicture(file);
          if (!fitted.ok) troubles.push(fitted.words);
          else if (!(await put({ caption: '', ...fitted.picture }))) return;
        }
        if (troubles.length > 0) say({ text: troubles.join(' '), tone: 'trouble' });
      },
      async change({ id }, change) {
        take(await ask('changePicture', { headerId, pictureId: id, change }));
      },
      async remove({ id, source, ...facts }) {
        const at = told?.findIndex((picture) => picture.id === id) ?? 0;
        if (!take(await ask('changePicture', { headerId, pictureId: id, change: { kind: 'remove' } }))) return;
        const content = source?.slice(source.indexOf(',') + 1);
        const { caption, mediaType, widthPx, heightPx } = facts;
        const putBack = async () => {
          const answer = await ask('addPicture', {
            headerId,
            picture: { caption, mediaType, widthPx, heightPx, content: content ?? '' },
          });
          const back = answer.ok ? answer.value.pictures.at(-1) : undefined;
          if (take(answer) && back !== undefined)
            take(await ask('changePicture', { headerId, pictureId: back.id, change: { kind: 'move', to: at } }));
        };
        const act = content ? { act: { name: 'Put it back', run: () => void putBack() } } : {};
        say({ text: 'Picture removed.', ...act });
      },
    };
  }, [ask, say, take, told, sources, headerId]);
}

/** Reads each file once, and lets go of those that are no longer there. */
function useSources(headerId: string, told: readonly Told[] | null): ReadonlyMap<string, string | null> {
  const ask = useAsk();
  const [sources, setSources] = useState<ReadonlyMap<string, string | null>>(new Map());
  const [asked] = useState(() => new Set<string>());
  useEffect(() => {
    for (const { id, mediaType } of told ?? []) {
      if (asked.has(id)) continue;
      asked.add(id);
      void ask('readPicture', { headerId, pictureId: id }).then((answer) => {
        const content = answer.ok ? answer.value.content : null;
        const source = content === null ? null : `data:${mediaType};base64,${content}`;
        setSources((before) => new Map([...before, [id, source]]));
      });
    }
  }, [ask, asked, headerId, told]);
  return sources;
}
