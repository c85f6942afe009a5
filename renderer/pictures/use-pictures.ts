/** The pictures of a header: read, added, changed, and put back after one was removed. */

import { useCallback, useEffect, useMemo, useState } from 'react';
import { PICTURES_LIMIT } from '../../core/index.ts';
import type { RequestOf, ResponseOf } from '../../electron/bridge/contract.ts';
import { type Answer, useAsk } from '../host/host-bridge.ts';
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
  /** What was not added and why; empty where all was. */
  readonly words: string;
  /** Fits and adds them one after the other, up to the limit. */
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
  const [words, setWords] = useState('');
  const sources = useSources(headerId, told);
  const take = useCallback(
    (answer: Listed) => {
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
  return useMemo(
    () => ({
      pictures: told?.map((picture) => ({ ...picture, source: sources.get(picture.id) })) ?? null,
      words,
      ...actsOn({ ask, say, take, setWords, headerId, told: told ?? [] }),
    }),
    [ask, say, take, told, words, sources, headerId],
  );
}

type Listed = Answer<'listPictures'>;

interface Reach {
  readonly ask: ReturnType<typeof useAsk>;
  readonly say: ReturnType<typeof useNotice>;
  /** Shows what an answer tells, or says why it was refused; false then. */
  readonly take: (answer: Listed) => boolean;
  readonly setWords: (words: string) => void;
  readonly headerId: string;
  readonly told: readonly Told[];
}

function actsOn(reach: Reach): Pick<PicturesKeeper, 'add' | 'change' | 'remove'> {
  const { ask, say, take, setWords, headerId, told } = reach;
  const change = (pictureId: string, change: Change) => ask('changePicture', { headerId, pictureId, change });
  return {
    async add(files) {
      const room = Math.max(0, PICTURES_LIMIT - told.length);
      const troubles = files.length > room ? [FULL] : [];
      setWords('');
      for (const file of files.slice(0, room)) {
        const fitted = await fitPicture(file);
        if (!fitted.ok) troubles.push(fitted.words);
        else if (!take(await ask('addPicture', { headerId, picture: { caption: '', ...fitted.picture } }))) return;
      }
      setWords(troubles.join(' '));
    },
    async change({ id }, wanted) {
      take(await change(id, wanted));
    },
    async remove(picture) {
      const at = told.findIndex(({ id }) => id === picture.id);
      if (!take(await change(picture.id, { kind: 'remove' }))) return;
      const act = { name: 'Put it back', run: () => void putBack(reach, picture, at) };
      say({ text: 'Picture removed.', ...(picture.source ? { act } : {}) });
    },
  };
}

/** As the last, and from there to where it was. */
async function putBack({ ask, take, headerId }: Reach, picture: ShownPicture, at: number): Promise<void> {
  const { caption, mediaType, widthPx, heightPx, source } = picture;
  const content = source?.slice(source.indexOf(',') + 1) ?? '';
  const added = await ask('addPicture', { headerId, picture: { caption, mediaType, widthPx, heightPx, content } });
  const back = added.ok ? added.value.pictures.at(-1) : undefined;
  if (!take(added) || back === undefined) return;
  take(await ask('changePicture', { headerId, pictureId: back.id, change: { kind: 'move', to: at } }));
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
