/** The fields of the archive's search. */

import { type Ref, useId } from 'react';
import type { LengthUnit } from '../../core/index.ts';
import { TextField } from '../ui/fields/text-field.tsx';
import type { SearchProblems, SearchTexts } from './archive-search.ts';

interface Props {
  readonly texts: SearchTexts;
  /** Of lengths typed without one. */
  readonly unit: LengthUnit;
  readonly problems: SearchProblems;
  readonly firstField: Ref<HTMLInputElement>;
  readonly onChange: (texts: SearchTexts) => void;
}

export function SearchFields({ texts, unit, problems, firstField, onChange }: Props) {
  const field = (id: keyof SearchTexts, label: string) => (
    <TextField
      label={label}
      value={texts[id]}
      onChange={(text) => onChange({ ...texts, [id]: text })}
      problem={problems[id] ?? null}
      {...(id === 'words' ? { inputRef: firstField } : {})}
    />
  );
  const day = (id: 'finishedFrom' | 'finishedTo', label: string) => (
    <DayField label={label} value={texts[id]} onChange={(value) => onChange({ ...texts, [id]: value })} />
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
