/** The headers on the bench, latest first, with a search once there are more than one looks through. */

import { useMemo, useState } from 'react';
import { renameHeaderEdit } from '../../core/index.ts';
import { useBridge } from '../host/host-bridge.ts';
import { useHeaderActs } from '../session/header-acts.ts';
import type { HeaderSession } from '../session/header-session.ts';
import type { OpenedHeader } from '../session/session-state.ts';
import { Button } from '../ui/button.tsx';
import { TextField } from '../ui/fields/text-field.tsx';
import { useNotice } from '../ui/notices.tsx';
import { HeaderRow } from './header-row.tsx';
import type { HeaderSummary } from './header-summary.ts';
import { renameHeader } from './rename-header.ts';
import { type HeaderPicture, useHeaderPictures } from './use-header-pictures.ts';

interface Props {
  readonly headers: readonly HeaderSummary[];
  /** The header open in this window, which is renamed and binned through its session. */
  readonly session: HeaderSession | null;
  readonly readAgain: () => void;
  readonly onOpen: (headerId: string) => void;
  readonly onOpened: (opened: OpenedHeader) => void;
  /** The open header went to the bin. */
  readonly onGone: () => void;
}

/** A shop may have a thousand headers; drawing them all would keep the first one waiting. */
const SHOWN_AT_ONCE = 40;
const WORTH_SEARCHING = 12;

export function namedLike(headers: readonly HeaderSummary[], words: string): readonly HeaderSummary[] {
  const wanted = words.toLowerCase().split(/\s+/);
  return headers.filter(({ name }) => wanted.every((word) => name.toLowerCase().includes(word)));
}

export function HeaderRows(props: Props) {
  const { headers } = props;
  const [words, setWords] = useState('');
  const [limit, setLimit] = useState(SHOWN_AT_ONCE);
  const found = useMemo(() => namedLike(headers, words), [headers, words]);
  const rest = found.length - limit;
  const shown = useMemo(() => found.slice(0, limit), [found, limit]);
  const pictureOf = useHeaderPictures(shown);
  return (
    <>
      {headers.length > WORTH_SEARCHING ? (
        <div className="header-find">
          <TextField label={`Find among ${headers.length} headers`} value={words} onChange={setWords} />
        </div>
      ) : null}
      <ul className="plain-list">
        {shown.map((summary) => (
          <ActingRow key={summary.headerId} {...props} summary={summary} picture={pictureOf(summary)} />
        ))}
      </ul>
      {found.length === 0 ? <p role="status">No header has that in its name.</p> : null}
      {rest > 0 ? (
        <div className="actions">
          <Button onPress={() => setLimit(limit + SHOWN_AT_ONCE)}>{`Show more: ${rest} not shown`}</Button>
        </div>
      ) : null}
    </>
  );
}

function ActingRow({
  summary,
  picture,
  session,
  readAgain,
  onOpen,
  onOpened,
  onGone,
}: Props & { readonly summary: HeaderSummary; readonly picture: HeaderPicture | null }) {
  const acts = useHeaderActs();
  const bridge = useBridge();
  const say = useNotice();
  const { headerId } = summary;
  const here = session?.headerId === headerId ? session : null;
  const rename = async (name: string) => {
    if (here) {
      here.apply(renameHeaderEdit(name));
      await here.flush();
    } else {
      const answer = await renameHeader(bridge, headerId, name);
      if (!answer.ok) say({ text: answer.words, tone: 'trouble' });
    }
    readAgain();
  };
  const bin = async () => {
    await here?.flush();
    if (!(await acts.bin(summary, readAgain))) return;
    if (here) onGone();
    readAgain();
  };
  const duplicate = async () => {
    await here?.flush();
    const opened = await acts.duplicate(summary);
    if (opened !== null) onOpened(opened);
  };
  return (
    <HeaderRow
      summary={summary}
      picture={picture}
      onOpen={() => onOpen(headerId)}
      onRename={(name) => void rename(name)}
      onDuplicate={() => void duplicate()}
      onExport={() => void acts.exportFile(summary)}
      onBin={() => void bin()}
    />
  );
}
