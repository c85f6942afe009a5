/** The start screen: every header on the bench, a new one, the demo, a file, and the bin. */

import { useCallback, useEffect, useState } from 'react';
import { useAsk } from '../host/host-bridge.ts';
import { useHeaderActs } from '../session/header-acts.ts';
import type { HeaderSession } from '../session/header-session.ts';
import type { OpenedHeader } from '../session/session-state.ts';
import { Button } from '../ui/button.tsx';
import { writeScreen } from '../ui/screen.ts';
import { countOf } from '../ui/words/spoken.ts';
import { Bin } from './bin.tsx';
import { FirstStart } from './first-start.tsx';
import { HeaderRows } from './header-rows.tsx';
import type { HeaderSummary } from './header-summary.ts';
import { freeHeaderName, NewHeaderLine } from './new-header-line.tsx';
import './headers.css';

interface Props {
  /** The header open in this window, which is renamed and binned through its session. */
  readonly session: HeaderSession | null;
  readonly onOpen: (headerId: string) => void;
  readonly onOpened: (opened: OpenedHeader) => void;
  /** The open header went to the bin. */
  readonly onGone: () => void;
  readonly onImport: () => void;
}

type Listed = { readonly bench: readonly HeaderSummary[]; readonly bin: readonly HeaderSummary[] };

/** Both lists, and the way to read them again; null until they are there. */
function useHeaderLists(): readonly [Listed | null, () => void, string | null] {
  const ask = useAsk();
  const [listed, setListed] = useState<Listed | null>(null);
  const [words, setWords] = useState<string | null>(null);
  const read = useCallback(async () => {
    const bench = await ask('listHeaders', { place: 'bench' });
    const bin = await ask('listHeaders', { place: 'bin' });
    if (!bench.ok) return setWords(bench.words);
    setWords(null);
    setListed({ bench: bench.value.headers, bin: bin.ok ? bin.value.headers : [] });
  }, [ask]);
  useEffect(() => void read(), [read]);
  return [listed, () => void read(), words];
}

export function HeaderList(props: Props) {
  const [listed, readAgain, words] = useHeaderLists();
  const acts = useHeaderActs();
  const show = (opened: OpenedHeader | null) => {
    if (opened !== null) props.onOpened(opened);
  };
  if (words !== null) return <ListTrouble words={words} onRetry={readAgain} />;
  if (listed === null) return <main className="page" id="screen" aria-busy="true" />;
  const open = listed.bench.filter((header) => header.state === 'open');
  const offered = freeHeaderName([...listed.bench, ...listed.bin].map((header) => header.name));
  const start = (
    <>
      <NewHeaderLine
        offered={offered}
        autoFocus={listed.bench.length === 0}
        onCreate={async (name) => show(await acts.create(name, 'blank'))}
      />
      <div className="actions">
        <Button onPress={async () => show(await acts.create('Demo header', 'demo'))}>Open the demo header</Button>
        <Button onPress={props.onImport}>Import a file</Button>
      </div>
    </>
  );
  return (
    <main className="page" id="screen">
      {listed.bench.length === 0 ? (
        <FirstStart>{start}</FirstStart>
      ) : (
        <>
          <h1>Headers</h1>
          {start}
          {open.length > 0 ? <HeaderRows {...props} headers={open} readAgain={readAgain} /> : null}
          <FinishedLine count={listed.bench.length - open.length} />
        </>
      )}
      {listed.bin.length > 0 ? (
        <Bin
          headers={listed.bin}
          onRestore={async (header) => {
            if (await acts.restore(header)) readAgain();
          }}
        />
      ) : null}
    </main>
  );
}

function FinishedLine({ count }: { readonly count: number }) {
  if (count === 0) return null;
  return (
    <p className="muted">
      {countOf(count, 'finished header')} in the <a href={writeScreen({ kind: 'archive' })}>archive</a>.
    </p>
  );
}

function ListTrouble({ words, onRetry }: { readonly words: string; readonly onRetry: () => void }) {
  return (
    <main className="page prose" id="screen">
      <h1>The list of headers could not be read</h1>
      <p>{words}</p>
      <div className="actions">
        <Button look="main" onPress={onRetry}>
          Try again
        </Button>
      </div>
    </main>
  );
}
