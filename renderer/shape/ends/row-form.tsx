/** Ports at a spacing along a head: one step for all primaries instead of a pose for each. */

import { useState } from 'react';
import {
  DIRECTIONS,
  type Direction,
  type DirectionWord,
  failure,
  firstPort,
  type Length,
  type LengthUnit,
  type Problem,
  parseLength,
  portRowEdit,
  type Result,
  success,
  unitOf,
} from '../../../core/index.ts';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { withDecimalPoints, writesDecimalComma } from '../../ui/fields/typed-numbers.ts';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import { DraftField, ShapeForm, useDraftForm } from '../draft-field.tsx';
import type { ShapeProps } from '../shape-props.ts';

const WORDS = DIRECTIONS.map(([word]) => ({ id: word, name: word }));
const USUAL_SPACING = { in: '4', mm: '100' } as const;

/** One length, or several with a semicolon between; or a comma, where that is no decimal one. */
function readSpacings(text: string, unit: LengthUnit): Result<readonly Length[], Problem> {
  const spacings: Length[] = [];
  for (const part of text.split(writesDecimalComma() ? /;/ : /[;,]/)) {
    const read = parseLength(withDecimalPoints(part), unit);
    if (!read.ok) return failure(...read.problems);
    spacings.push(read.value);
  }
  return success(spacings);
}

export function RowForm({ session, header, onDone }: ShapeProps & { readonly onDone: () => void }) {
  const unit = unitOf(header.settings.display);
  const [along, setAlong] = useState<DirectionWord>('back');
  const form = useDraftForm({ spacings: USUAL_SPACING[unit] });
  const [first, ...others] = header.primaries;
  if (first === undefined) return null;
  const take = () => {
    const read = readSpacings(form.texts.spacings, unit);
    if (!read.ok) {
      form.setProblem({ field: 'spacings', words: wordsFor(read.problems) });
      return;
    }
    // The last spacing goes on for the ports that none was typed for.
    const all = others.map((_, index) => read.value[index] ?? read.value.at(-1) ?? { value: 0, unit });
    const way: Direction = DIRECTIONS.find(([word]) => word === along)?.[1] ?? { x: -1, y: 0, z: 0 };
    const edit = portRowEdit(header.primaries, { first: first.port ?? firstPort(unit), along: way, spacings: all });
    const done = edit.ok ? session.apply(edit.value) : edit;
    if (done.ok) onDone();
    else form.setProblem({ field: null, words: wordsFor(done.problems) });
  };
  return (
    <ShapeForm
      form={form}
      label="Row of ports"
      takeWords={`Place ${header.primaries.length} ports`}
      onTake={take}
      onClose={onDone}
    >
      <p>
        Repeat {primaryTitle(first.name)}'s port{first.port === null ? ' (at the origin, outboard)' : ''} at this
        spacing.
      </p>
      <div className="pose-fields">
        <DraftField
          form={form}
          name="spacings"
          label={`Spacing, centre to centre (${unit})`}
          hint="One for all, or one for each with semicolons between."
        />
        <ChoiceField label="The row runs" choices={WORDS} chosen={along} onChoose={setAlong} />
      </div>
    </ShapeForm>
  );
}
