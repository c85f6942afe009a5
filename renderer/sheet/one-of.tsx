/** A choice of one primary or inlet of the header. */

import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { chosenOf, type Named } from './sheet-choice.ts';

interface Props {
  readonly label: string;
  readonly list: readonly Named[];
  readonly id: string | null;
  /** The place in the list of the one that stands while none is chosen. */
  readonly otherwise?: number;
  readonly onChoose: (id: string) => void;
}

/** None for an empty list: what is missing is said where the pages would be. */
export function OneOf({ label, list, id, otherwise = 0, onChoose }: Props) {
  const chosen = chosenOf(list, id, otherwise);
  return chosen === null ? null : <ChoiceField label={label} choices={list} chosen={chosen} onChoose={onChoose} />;
}
