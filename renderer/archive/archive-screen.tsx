/** The archive: finished headers, found by words, tube, number of primaries and length. */

import { type Ref, useRef, useState } from 'react';
import type { LengthUnit } from '../../core/index.ts';
import { useCommands } from '../commands/command-registry.ts';
import { useHeaderActs } from '../session/header-acts.ts';
import type { OpenedHeader } from '../session/session-state.ts';
import { TextField } from '../ui/fields/text-field.tsx';
import { countOf } from '../ui/words/spoken.ts';
import { ArchiveRowView } from './archive-row.tsx';
import { EMPTY_SEARCH, type SearchProblems, type SearchTexts } from './archive-search.ts';
import { type Found, useArchive } from './use-archive.ts';
import './archive.css';

interface Props {
  /** Unit of lengths typed without one. */
  readonly unit: LengthUnit;
  readonly onOpen: (headerId: string) => void;
  readonly onOpened: (opened: OpenedHeader) => void;
}

export function ArchiveScreen({ unit, onOpen, onOpened }: Props) {
  const [texts, setTexts] = useState(EMPTY_SEARCH);
  const found = useArchive(texts, unit);
  const acts = useHeaderActs();
  const firstField = useRef<HTMLInputElement>(null);
  useCommands([{ id: 'findInArchive', run: () => firstField.current?.focus() }]);
  const isSearching = Object.values(texts).some((text) => text.trim() !== '');
  return (
    <main className="page page-wide" id="screen" aria-busy={found.rows === null && found.words === null}>
      <h1>Archive</h1>
      <SearchFields texts={texts} unit={unit} problems={found.problems} firstField={firstField} onChange={setTexts} />
      <p role="status">{foundWords(found, isSearching)}</p>
      <ul className="plain-list">
        {(found.rows ?? []).map((row) => (
          <ArchiveRowView
            key={row.headerId}
            row={row}
            onLook={() => onOpen(row.headerId)}
            onOpenAsNew={async () => {
              const opened = await acts.duplicate(row);
              if (opened !== null) onOpened(opened);
            }}
            onExport={() => void acts.exportFile(row)}
          />
        ))}
      </ul>
    </main>
  );
}

function foundWords({ rows, words }: Found, isSearching: boolean): string {
  if (words !== null) return words;
  if (rows === null) return '';
  if (rows.length > 0) return `${countOf(rows.length, 'finished header')}.`;
  return isSearching
    ? 'No finished header matches. Clear a field to find more.'
    : 'Nothing is finished yet. When a header is welded and checked, choose "Finish header" on the bench: it goes here with its figures, and the next one can start as a copy of it.';
}

interface FieldsProps {
  readonly texts: SearchTexts;
  readonly unit: LengthUnit;
  readonly problems: SearchProblems;
  readonly firstField: Ref<HTMLInputElement>;
  readonly onChange: (texts: SearchTexts) => void;
}

function SearchFields({ texts, unit, problems, firstField, onChange }: FieldsProps) {
  const field = (id: keyof SearchTexts, label: string) => (
    <TextField
      label={label}
      value={texts[id]}
      onChange={(text) => onChange({ ...texts, [id]: text })}
      problem={problems[id] ?? null}
      {...(id === 'words' ? { inputRef: firstField } : {})}
    />
  );
  return (
    <search className="archive-search">
      {field('words', 'Search name, note, material')}
      {field('od', `Tube OD (${unit})`)}
      {field('cylinders', 'Primaries')}
      {field('targetFrom', `Target from (${unit})`)}
      {field('targetTo', `Target to (${unit})`)}
    </search>
  );
}
