/** Bringing a file in: from a dialog, dropped on the window, or handed over by the system; always looked at first. */

import { useCallback, useMemo, useState } from 'react';
import {
  addPartsEdit,
  type Header,
  type LengthUnit,
  nameFromText,
  newHeader,
  type Problem,
  unitOf,
} from '../../../core/index.ts';
import { askForFile, FILE_LIMIT_BYTES, type GivenFile, readGivenFile } from '../../host/files.ts';
import { useAsk } from '../../host/host-bridge.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import type { OpenedHeader } from '../../session/session-state.ts';
import { useNotice } from '../../ui/notices.tsx';
import type { Screen } from '../../ui/screen.ts';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { countOf } from '../../ui/words/spoken.ts';
import type { Destination, Expected, Preview } from './given-preview.ts';
import { guessKind } from './import-dialog.tsx';
import { takenInWords } from './stock-beside-shelf.ts';

interface Context {
  readonly session: HeaderSession | null;
  readonly onShelf: boolean;
  readonly onOpened: (opened: OpenedHeader) => void;
  readonly goTo: (screen: Screen) => void;
}

export interface Imports {
  /** The file being looked at; null when there is none. */
  readonly file: { readonly given: GivenFile; readonly expect: Expected } | null;
  /** Unit of numbers without one, at first. */
  readonly unit: LengthUnit;
  /** Grows with every import, so that lists know to read again. */
  readonly count: number;
  /** Something came in by another way. */
  renew(): void;
  ask(expect: Expected): void;
  offer(file: File): void;
  offerGiven(given: GivenFile): void;
  close(): void;
  /** Words of a refusal, or null when it is in. */
  accept(preview: Preview, to: Destination): Promise<string | null>;
}

const BY_ITS_OWN_WAY = 'press "Bring back from a file" in the archive, and choose it there.';

const ACCEPTED: Readonly<Record<Expected, string>> = {
  header: '.json,.evenrun,.csv,.tsv,.txt,application/json,text/csv',
  parts: '.csv,.tsv,.txt,text/csv',
  stock: '.csv,.tsv,.txt,text/csv',
};

/** The name of a file without its ending, as the name of what is made of it. */
export function nameFromFile(fileName: string): string {
  return nameFromText(fileName.replace(/\.[^.]*$/, ''), 'Imported parts');
}

export function headerOfParts(
  preview: Extract<Preview, { kind: 'parts' }>,
  { fileName, unit }: { readonly fileName: string; readonly unit: LengthUnit },
): Header {
  // The host gives it an id of its own; with one here, the same list brought in again would be another request.
  const header = newHeader({ id: 'parts', name: nameFromFile(fileName) });
  const display = unit === 'mm' ? ({ kind: 'mm', places: 1 } as const) : header.settings.display;
  return { ...header, settings: { ...header.settings, display }, primaries: preview.primaries };
}

type Parts = Extract<Preview, { kind: 'parts' }>;

/** Puts a parts list into the open header and shows it there; the words of a refusal, or null. */
function useAdd({ session, goTo }: Context) {
  const say = useNotice();
  return useCallback(
    (preview: Parts): string | null => {
      if (session === null) return 'No header is open.';
      const { header } = session.getState();
      const done = session.apply(addPartsEdit(header, preview.primaries, () => session.newId()));
      if (!done.ok) return wordsFor(done.problems);
      const count = countOf(preview.primaries.length, 'primary', 'primaries');
      say({ text: `${count} added to ${header.name}. Undo takes them out again.` });
      goTo({ kind: 'bench', headerId: session.headerId });
      return null;
    },
    [session, say, goTo],
  );
}

const SHELF_CHANGED = 'The shelf was changed in another window meanwhile: import the file again.';

/** Whether what the list was compared with is no longer what is on the shelf. */
function isOutOfDate(problems: readonly Problem[]): boolean {
  return problems.some(({ kind }) => kind === 'changedElsewhere' || kind === 'notFound');
}

/** Keeps what was accepted; the words of a refusal, or null. */
function useAccept({ onOpened, goTo }: Context, done: () => void) {
  const ask = useAsk();
  const say = useNotice();
  return useCallback(
    async (preview: Preview, given: GivenFile, unit: LengthUnit) => {
      if (preview.kind === 'stock') {
        const answer = await ask('changeShelf', {
          changes: [...preview.changes],
          because: nameFromFile(given.fileName),
        });
        if (!answer.ok) return isOutOfDate(answer.problems) ? SHELF_CHANGED : answer.words;
        done();
        say({ text: takenInWords(preview) });
        goTo({ kind: 'shelf' });
        return null;
      }
      const header =
        preview.kind === 'header' ? preview.header : headerOfParts(preview, { fileName: given.fileName, unit });
      const answer = await ask('importHeader', { header });
      if (!answer.ok) return answer.words;
      done();
      onOpened(answer.value);
      return null;
    },
    [ask, say, goTo, onOpened, done],
  );
}

export function useImport(context: Context): Imports {
  const { session, onShelf } = context;
  const say = useNotice();
  const [file, setFile] = useState<Imports['file']>(null);
  const [count, setCount] = useState(0);
  const done = useCallback(() => setCount((before) => before + 1), []);
  const keep = useAccept(context, done);
  const add = useAdd(context);
  const unit = session === null ? 'in' : unitOf(session.getState().header.settings.display);
  return useMemo(() => {
    const isElsewhere = (fileName: string) => {
      const isFinished = /\.jsonl$/i.test(fileName);
      if (isFinished) say({ text: `${fileName} holds finished headers: ${BY_ITS_OWN_WAY}`, tone: 'trouble' });
      return isFinished;
    };
    const take = async (chosen: File, expect: Expected) => {
      if (isElsewhere(chosen.name)) return;
      if (chosen.size > FILE_LIMIT_BYTES) {
        say({
          text: `${chosen.name} is larger than 10 MiB, more than any header or list needs. Nothing was read.`,
          tone: 'trouble',
        });
        return;
      }
      setFile({ given: await readGivenFile(chosen), expect });
    };
    return {
      file,
      unit,
      count,
      ask: (expect) =>
        void askForFile(ACCEPTED[expect]).then((chosen) =>
          chosen === null ? undefined : take(chosen, expect === 'header' ? guessKind(chosen.name, false) : expect),
        ),
      offer: (chosen) => void take(chosen, guessKind(chosen.name, onShelf)),
      offerGiven: ({ fileName, content }) => {
        if (!isElsewhere(fileName)) setFile({ given: { fileName, content }, expect: guessKind(fileName, onShelf) });
      },
      renew: done,
      close: () => setFile(null),
      accept: async (preview, to) => {
        if (file === null) return null;
        return preview.kind === 'parts' && to === 'openHeader' ? add(preview) : keep(preview, file.given, unit);
      },
    };
  }, [file, unit, count, done, say, keep, add, onShelf]);
}
