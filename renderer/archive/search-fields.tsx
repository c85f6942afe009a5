/** The fields of the archive's search. */

import { memo, type Ref, useId } from 'react';
import type { LengthUnit } from '../../core/index.ts';
import { TextField } from '../ui/fields/text-field.tsx';
import type { SearchProblems, SearchTexts } from './archive-search.ts';

interface Props {
  readonly texts: SearchTexts;
  /** Of lengths typed without one. */
  readonly unit: LengthUnit;
  readonly problems: SearchProblems;
  readonly firstField: Ref<HTMLInputElement>;
  /** The same for as long as the screen stands, so that a key draws no field but its own. */
  readonly onChange: (field: keyof SearchTexts, text: string) => void;
}

export function SearchFields({ texts, unit, problems, firstField, onChange }: Props) {
  const field = (id: keyof SearchTexts, label: string) => (
    <SearchField
      id={id}
      label={label}
      value={texts[id]}
      problem={problems[id] ?? null}
      onChange={onChange}
      {...(id === 'words' ? { inputRef: firstField } : {})}
    />
  );
  const day = (id: 'finishedFrom' | 'finishedTo', label: string) => (
    <DayField label={label} value={texts[id]} onChange={(value) => onChange(id, value)} />
  );
  return (
    <search className="archive-search">
      {field('words', 'Search name, note, material')}
      {field('material', 'Material')}
      {field('od', `Tube OD (${unit})`)}
      {field('cylinders', 'Primaries')}
      {field('targetFrom', `Target from (${unit})`)}
      {field('targetTo', `Target to (${unit})`)}
      {field('spreadTo', `Spread to (${unit})`)}
      {day('finishedFrom', 'Finished from')}
      {day('finishedTo', 'Finished to')}
    </search>
  );
}

interface FieldProps {
  readonly id: keyof SearchTexts;
  readonly label: string;
  readonly value: string;
  readonly problem: string | null;
  readonly inputRef?: Ref<HTMLInputElement>;
  readonly onChange: Props['onChange'];
}

const SearchField = memo(function SearchField({ id, label, value, problem, inputRef, onChange }: FieldProps) {
  return (
    <TextField
      label={label}
      value={value}
      problem={problem}
      onChange={(text) => onChange(id, text)}
      {...(inputRef === undefined ? {} : { inputRef })}
    />
  );
});

interface DayProps {
  readonly label: string;
  /** `2026-03-01`, or empty. */
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** The browser's own field for a day, in the reader's own order of day, month and year. */
function DayField({ label, value, onChange }: DayProps) {
  const id = useId();
  return (
    <div className="field">
      <label className="field-label" htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        className="field-input archive-day"
        type="date"
        value={value}
        onChange={(event) => onChange(event.target.value)}
      />
    </div>
  );
}
