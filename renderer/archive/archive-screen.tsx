/** The archive: finished headers, found by what they are, or put in order by how like they are to another. */

import { useCallback, useMemo, useRef, useState } from 'react';
import type { LengthUnit } from '../../core/index.ts';
import { useCommandRegistry, useCommands } from '../commands/command-registry.ts';
import { useHeaderActs } from '../session/header-acts.ts';
import type { OpenedHeader } from '../session/session-state.ts';
import { useAltered } from '../session/use-altered.ts';
import { Button } from '../ui/button.tsx';
import { useSettled } from '../ui/hooks/use-settled.ts';
import { type Screen, writeScreen } from '../ui/screen.ts';
import { countOf } from '../ui/words/spoken.ts';
import { type ArchiveRow, ArchiveRowView, type Like, type RowActs } from './archive-row.tsx';
import { EMPTY_SEARCH, type SearchTexts } from './archive-search.ts';
import { ExportFinished } from './files/export-finished.tsx';
import { foundWords } from './found-words.ts';
import { type OpenRowMenu, RowMenu } from './row-menu.tsx';
import { SearchFields } from './search-fields.tsx';
import { type Found, useArchive } from './use-archive.ts';
import { useDrawings } from './use-drawings.ts';
import './archive.css';

interface Props {
  /** Unit of lengths typed without one. */
  readonly unit: LengthUnit;
  /** The header whose likes are looked for; null: none. */
  readonly likeId: string | null;
  readonly goTo: (screen: Screen) => void;
  readonly onOpen: (headerId: string) => void;
  readonly onOpened: (opened: OpenedHeader) => void;
}

/** A header that is to be compared with another. */
interface Begun {
  readonly headerId: string;
  readonly name: string;
}

export function ArchiveScreen(props: Props) {
  const { unit, likeId, goTo } = props;
  const [texts, change] = useSearchTexts();
  const { found, showMore } = useArchive(texts, unit, likeId);
  const [begun, setBegun] = useState<Begun | null>(null);
  const [exporting, setExporting] = useState<string | null>(null);
  const first = begun ?? found.like;
  const [menu, setMenu] = useState<OpenRowMenu | null>(null);
  const acts = useRowActs(props, first, { begin: setBegun, openMenu: setMenu, exportOne: setExporting });
  const firstField = useRef<HTMLInputElement>(null);
  useCommands([{ id: 'findInArchive', run: () => firstField.current?.focus() }]);
  // While one types, rows come and go too fast to be read whole, and that would keep the next answer waiting.
  const settled = useSettled(found.rows);
  const rows = useSoundRows(found.rows, settled);
  const drawings = useDrawings(settled);
  const nameBeside = (headerId: string) => (first === null || first.headerId === headerId ? null : first.name);
  const isSearching = Object.values(texts).some((text) => text.trim() !== '');
  return (
    <main className="page page-wide archive" id="screen" aria-busy={found.rows === null && found.words === null}>
      <div className="page-head">
        <h1>Archive</h1>
        <div className="archive-head">
          <FileButtons />
          <a className="archive-link" href={writeScreen({ kind: 'shopFigures' })}>
            Shop figures
          </a>
        </div>
      </div>
      <SearchFields texts={texts} unit={unit} problems={found.problems} firstField={firstField} onChange={change} />
      <div className="archive-said">
        <p role="status">{foundWords(found, isSearching)}</p>
        {found.like === null ? null : <LikeWords like={found.like} onEnd={() => goTo({ kind: 'archive' })} />}
        {begun === null ? null : <BegunWords name={begun.name} onEnd={() => setBegun(null)} />}
      </div>
      <ul className="plain-list">
        {rows.map((row, place) => (
          <ArchiveRowView
            // biome-ignore lint/suspicious/noArrayIndexKey: a row that stays in its place and says something else is painted sooner than another row
            key={place}
            row={row}
            drawing={drawings.get(row.headerId) ?? null}
            like={found.like}
            compareWith={nameBeside(row.headerId)}
            isMenuOpen={menu?.row.headerId === row.headerId}
            acts={acts}
          />
        ))}
      </ul>
      {found.count > found.askedFor && rows.length > 0 ? (
        <div className="actions">
          <Button onPress={showMore}>{`Show more: ${countOf(found.count - rows.length, 'header')} not shown`}</Button>
        </div>
      ) : null}
      {menu === null ? null : (
        <RowMenu open={menu} compareWith={nameBeside(menu.row.headerId)} acts={acts} onClose={() => setMenu(null)} />
      )}
      {exporting === null ? null : <ExportFinished headerIds={[exporting]} onClose={() => setExporting(null)} />}
    </main>
  );
}

/** What stands in the search fields, and what changes one of them. */
function useSearchTexts(): readonly [SearchTexts, (field: keyof SearchTexts, text: string) => void] {
  const [texts, setTexts] = useState(EMPTY_SEARCH);
  const change = useCallback(
    (field: keyof SearchTexts, text: string) => setTexts((before) => ({ ...before, [field]: text })),
    [],
  );
  return [texts, change];
}

/** Rows as they were found, and those that turned out altered marked so. */
function useSoundRows(rows: Found['rows'], settled: Found['rows']): readonly ArchiveRow[] {
  const altered = useAltered(useMemo(() => (settled ?? []).map(({ headerId }) => headerId), [settled]));
  return useMemo(
    () => (rows ?? []).map((row) => (altered.has(row.headerId) ? { ...row, isDamaged: true } : row)),
    [rows, altered],
  );
}

/** Files of finished headers, out and in, by their commands. */
function FileButtons() {
  const registry = useCommandRegistry();
  return (
    <>
      <Button look="quiet" onPress={() => registry.find('exportFinished')?.run()}>
        Export all
      </Button>
      <Button look="quiet" onPress={() => registry.find('bringBackFinished')?.run()}>
        Bring back from a file
      </Button>
    </>
  );
}

/** The same as long as the screen stands; what they work with is what stood there last. */
function useRowActs(
  props: Props,
  first: Begun | null,
  {
    begin,
    openMenu,
    exportOne,
  }: {
    readonly begin: (begun: Begun) => void;
    readonly openMenu: (menu: OpenRowMenu) => void;
    readonly exportOne: (headerId: string) => void;
  },
): RowActs {
  const headerActs = useHeaderActs();
  const latest = useRef({ ...props, first, headerActs });
  latest.current = { ...props, first, headerActs };
  return useMemo(
    () => ({
      look: ({ headerId }) => latest.current.onOpen(headerId),
      openAsNew: async (row, as) => {
        const opened = await latest.current.headerActs.duplicate(row, as);
        if (opened !== null) latest.current.onOpened(opened);
      },
      exportFile: ({ headerId }) => exportOne(headerId),
      findSimilar: ({ headerId }) => latest.current.goTo({ kind: 'archive', likeId: headerId }),
      compare: ({ headerId, name }) => {
        const { first: one, goTo } = latest.current;
        if (one === null || one.headerId === headerId) begin({ headerId, name });
        else goTo({ kind: 'compare', oneId: one.headerId, otherId: headerId });
      },
      showMore: (row, button) => openMenu({ row, button }),
    }),
    [begin, openMenu, exportOne],
  );
}

function LikeWords({ like, onEnd }: { readonly like: Like; readonly onEnd: () => void }) {
  return (
    <div className="archive-like">
      <p>
        Most like <strong>{like.name}</strong> first: tube, number of primaries, target.
      </p>
      <Button look="quiet" onPress={onEnd}>
        Last finished first
      </Button>
    </div>
  );
}

function BegunWords({ name, onEnd }: { readonly name: string; readonly onEnd: () => void }) {
  return (
    <div className="archive-like">
      <p role="status">
        Comparing <strong>{name}</strong>: choose Compare at the other header.
      </p>
      <Button look="quiet" onPress={onEnd}>
        Compare nothing
      </Button>
    </div>
  );
}
