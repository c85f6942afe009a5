/** One line at the foot of the window that says what just happened, and offers to take it back. */

import { createContext, type ReactNode, useCallback, useContext, useEffect, useMemo, useState } from 'react';
import { Button } from './button.tsx';
import { FigureText } from './figure-text.tsx';

export interface Notice {
  readonly text: string;
  /** `trouble` stays until it is put away; the rest goes after a while unless it offers something. */
  readonly tone?: 'news' | 'trouble';
  readonly act?: { readonly name: string; readonly run: () => void };
}

const NoticeContext = createContext<(notice: Notice) => void>(() => undefined);

/** Says something to the user; the latest notice stands in place of the one before it. */
export function useNotice(): (notice: Notice) => void {
  return useContext(NoticeContext);
}

const NEWS_MS = 8000;

export function NoticeProvider({ children }: { readonly children: ReactNode }) {
  const [notice, setNotice] = useState<Notice | null>(null);
  const show = useCallback((next: Notice) => setNotice({ ...next }), []);
  useEffect(() => {
    // What can be taken back stays: a person in gloves may need longer than any timer allows.
    if (notice === null || notice.tone === 'trouble' || notice.act) return;
    const timer = setTimeout(() => setNotice(null), NEWS_MS);
    return () => clearTimeout(timer);
  }, [notice]);
  const line = useMemo(() => <NoticeLine notice={notice} onClose={() => setNotice(null)} />, [notice]);
  return (
    <NoticeContext value={show}>
      {children}
      {line}
    </NoticeContext>
  );
}

function NoticeLine({ notice, onClose }: { readonly notice: Notice | null; readonly onClose: () => void }) {
  const act = notice?.act;
  return (
    <div className={notice === null ? 'notice notice-empty' : 'notice'} data-tone={notice?.tone ?? 'news'}>
      <p role={notice?.tone === 'trouble' ? 'alert' : 'status'}>
        <FigureText text={notice?.text ?? ''} />
      </p>
      {notice === null ? null : (
        <div className="actions">
          {act ? (
            <Button
              onPress={() => {
                onClose();
                act.run();
              }}
            >
              {act.name}
            </Button>
          ) : null}
          <Button look="quiet" onPress={onClose}>
            Close
          </Button>
        </div>
      )}
    </div>
  );
}
