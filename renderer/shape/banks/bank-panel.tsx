/** The other bank: mirrored copies, and two primaries or two banks compared piece by piece. */

import { useState } from 'react';
import { type MirrorPlane, mirrorBank, mirroredCopy, parseSignedLength, unitOf } from '../../../core/index.ts';
import { Button } from '../../ui/button.tsx';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { withDecimalPoints } from '../../ui/fields/typed-numbers.ts';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { DraftField, FormProblem, useDraftForm } from '../draft-field.tsx';
import type { ShapeProps } from '../shape-props.ts';
import { CompareBanksPart } from './compare-banks-part.tsx';
import { ComparePart } from './compare-part.tsx';
import { PrimaryChoices } from './primary-choices.tsx';

type PlaneAxis = 'x' | 'y' | 'z';

const PLANES = [
  { id: 'y', name: 'left and right' },
  { id: 'x', name: 'front and back' },
  { id: 'z', name: 'above and below' },
] as const;

export function BankPanel(props: ShapeProps) {
  return (
    <div className="shape-stack">
      <MirrorPart {...props} />
      <ComparePart key={props.primary.id} {...props} />
      <CompareBanksPart {...props} />
    </div>
  );
}

function MirrorPart({ session, header, primary }: ShapeProps) {
  const unit = unitOf(header.settings.display);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(() => new Set([primary.id]));
  const [axis, setAxis] = useState<PlaneAxis>('y');
  const form = useDraftForm({ at: '0' });
  const act = (isCopy: boolean) => {
    const at = parseSignedLength(withDecimalPoints(form.texts.at), unit);
    if (!at.ok) {
      form.setProblem({ field: 'at', words: wordsFor(at.problems) });
      return;
    }
    const zero = { value: 0, unit };
    const plane: MirrorPlane = {
      at: { x: zero, y: zero, z: zero, [axis]: at.value },
      normal: { x: axis === 'x' ? 1 : 0, y: axis === 'y' ? 1 : 0, z: axis === 'z' ? 1 : 0 },
    };
    const ids = header.primaries.filter(({ id }) => chosen.has(id)).map(({ id }) => id);
    const newId = () => session.newId();
    const edit = isCopy ? mirroredCopy(header, ids, { plane, newId }) : mirrorBank(header, ids, plane);
    const done = edit.ok ? session.apply(edit.value) : edit;
    form.setProblem(done.ok ? null : { field: null, words: wordsFor(done.problems) });
  };
  return (
    <section className="shape-part" aria-label="Mirror">
      <h2 className="shape-heading">Mirror</h2>
      <PrimaryChoices legend="Primaries" primaries={header.primaries} chosen={chosen} onChange={setChosen} />
      <div className="pose-fields">
        <ChoiceField<PlaneAxis> label="Swaps" choices={PLANES} chosen={axis} onChoose={setAxis} />
        <DraftField form={form} name="at" label={`Plane at (${unit})`} />
      </div>
      <FormProblem form={form} />
      <div className="actions">
        <Button onPress={() => act(true)} isDisabled={chosen.size === 0}>
          Add mirrored copies
        </Button>
        <Button onPress={() => act(false)} isDisabled={chosen.size === 0}>
          Mirror in place
        </Button>
      </div>
    </section>
  );
}
