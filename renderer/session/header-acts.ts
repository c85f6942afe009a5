/** What can be done to a header as a whole: create, duplicate, export, bin, restore. */

import { useMemo } from 'react';
import { nameWithEnding } from '../../core/index.ts';
import { finishExport } from '../host/files.ts';
import { useAsk } from '../host/host-bridge.ts';
import { useNotice } from '../ui/notices.tsx';
import type { OpenedHeader } from './session-state.ts';

export interface HeaderAsked {
  readonly headerId: string;
  readonly name: string;
}

export interface HeaderActs {
  /** The new header, or null when it was refused; the reason has been shown. */
  create(name: string, from: 'blank' | 'demo'): Promise<OpenedHeader | null>;
  /** A copy to be built from new tube; `mirrored`: likewise, for the other side; `same`: one to go on with as far as it is built. */
  duplicate(header: HeaderAsked, as?: 'again' | 'mirrored' | 'same'): Promise<OpenedHeader | null>;
  exportFile(header: HeaderAsked): Promise<void>;
  /** True once it lies in the bin. The notice offers to take it back; `changed` is told then. */
  bin(header: HeaderAsked, changed: () => void): Promise<boolean>;
  restore(header: HeaderAsked): Promise<boolean>;
}

const COPY_ENDINGS = { again: ' (copy)', same: ' (copy)', mirrored: ' mirrored' } as const;

export function useHeaderActs(): HeaderActs {
  const ask = useAsk();
  const say = useNotice();
  return useMemo(() => {
    const trouble = (words: string) => say({ text: words, tone: 'trouble' });
    const opened = (answer: Awaited<ReturnType<typeof ask<'createHeader'>>>) => {
      if (answer.ok) return answer.value;
      trouble(answer.words);
      return null;
    };
    const done = (answer: Awaited<ReturnType<typeof ask<'binHeader'>>>) => {
      if (!answer.ok) trouble(answer.words);
      return answer.ok;
    };
    const restore = async ({ headerId, name }: HeaderAsked) => {
      if (!done(await ask('restoreHeader', { headerId }))) return false;
      // In the place of the notice that it went to the bin, which is no longer so.
      say({ text: `${name} is back among the headers.` });
      return true;
    };
    return {
      create: async (name, from) => opened(await ask('createHeader', { name, from })),
      duplicate: async ({ headerId, name }, as = 'again') =>
        opened(await ask('duplicateHeader', { headerId, name: nameWithEnding(name, COPY_ENDINGS[as]), as })),
      async exportFile({ headerId }) {
        const answer = await ask('exportHeader', { headerId });
        if (!answer.ok) return trouble(answer.words);
        const words = finishExport(answer.value);
        if (words !== null) say({ text: words });
      },
      restore,
      async bin(header, changed) {
        if (!done(await ask('binHeader', { headerId: header.headerId }))) return false;
        const takeBack = () => void restore(header).then(changed);
        say({ text: `${header.name} is in the bin.`, act: { name: 'Restore it', run: takeBack } });
        return true;
      },
    };
  }, [ask, say]);
}
