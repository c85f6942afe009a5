/** Going to the bench with a header: by its id, or with one that a call has just answered with. */

import { useMemo } from 'react';
import type { OpenedHeader } from '../../session/session-state.ts';
import { useNotice } from '../../ui/notices.tsx';
import type { Screen } from '../../ui/screen.ts';
import type { OpenHeader } from './use-open-header.ts';

export interface Going {
  openById(headerId: string): void;
  openGiven(opened: OpenedHeader): void;
  /** Without asking whether the header in hand may be left: for when its steps have just been kept otherwise. */
  show(opened: OpenedHeader): void;
}

/** Going to a bench opens its header; one whose steps are not safe is not left for another. */
export function useGoing(open: OpenHeader, goTo: (screen: Screen) => void): Going {
  const say = useNotice();
  return useMemo(() => {
    const mayLeave = (headerId: string | null) => {
      const isSame = open.state.kind === 'open' && open.state.session.headerId === headerId;
      const reason = isSame ? null : open.whyItMustStay();
      if (reason !== null) say({ text: reason, tone: 'trouble' });
      return reason === null;
    };
    const show = (opened: OpenedHeader) => {
      open.adopt(opened);
      goTo({ kind: 'bench', headerId: opened.header.id });
    };
    return {
      openById(headerId: string) {
        if (!mayLeave(headerId)) return;
        void open.open(headerId);
        goTo({ kind: 'bench', headerId });
      },
      openGiven(opened: OpenedHeader) {
        if (mayLeave(opened.header.id)) show(opened);
      },
      show,
    };
  }, [open, goTo, say]);
}
