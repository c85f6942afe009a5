/** A collector by its pattern: all inlets from the tube's OD, the gap between the tubes and one place. */

import { useState } from 'react';
import {
  collectorPatternEdit,
  DIRECTIONS,
  type DirectionWord,
  firstInletPose,
  type Header,
  type InletPattern,
  type Length,
  type Place,
  parseLength,
  parseSignedLength,
  typedText,
  unitOf,
  upFor,
} from '../../../core/index.ts';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { withDecimalPoints } from '../../ui/fields/typed-numbers.ts';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { DraftField, ShapeForm, useDraftForm } from '../draft-field.tsx';
import type { ShapeProps } from '../shape-props.ts';

const PATTERNS = [
  { id: 'sideBySide2', name: '2 into 1, side by side', pattern: 'sideBySide', count: 2 },
  { id: 'sideBySide3', name: '3 into 1, side by side', pattern: 'sideBySide', count: 3 },
  { id: 'triangle3', name: '3 into 1, triangle', pattern: 'triangle', count: 3 },
  { id: 'square4', name: '4 into 1, square', pattern: 'square', count: 4 },
  { id: 'sideBySide4', name: '4 into 1, side by side', pattern: 'sideBySide', count: 4 },
] as const satisfies readonly { id: string; name: string; pattern: InletPattern; count: number }[];

type PatternId = (typeof PATTERNS)[number]['id'];

const WORDS = DIRECTIONS.map(([word]) => ({ id: word, name: word }));
const FIELDS = ['od', 'gap', 'x', 'y', 'z'] as const;

function textsAtStart(header: Header) {
  const unit = unitOf(header.settings.display);
  const { at } = firstInletPose(unit);
  return {
    od: typedText(header.settings.tube.od, unit),
    gap: '0',
    x: typedText(at.x, unit),
    y: typedText(at.y, unit),
    z: typedText(at.z, unit),
  };
}

export function CollectorForm({ session, header, onDone }: ShapeProps & { readonly onDone: () => void }) {
  const unit = unitOf(header.settings.display);
  const start = firstInletPose(unit);
  const [patternId, setPatternId] = useState<PatternId>('square4');
  const [points, setPoints] = useState<DirectionWord>('down');
  const [isFilled, setIsFilled] = useState(true);
  const form = useDraftForm(textsAtStart(header));
  const read = (name: (typeof FIELDS)[number]): Length | null => {
    const parse = name === 'od' || name === 'gap' ? parseLength : parseSignedLength;
    const length = parse(withDecimalPoints(form.texts[name]), unit);
    if (!length.ok) form.setProblem({ field: name, words: wordsFor(length.problems) });
    return length.ok ? length.value : null;
  };
  const take = () => {
    const [od, gap, x, y, z] = FIELDS.map(read);
    if (!od || !gap || !x || !y || !z) return;
    const at: Place = { x, y, z };
    const { pattern, count, name } = PATTERNS.find(({ id }) => id === patternId) ?? PATTERNS[0];
    const direction = DIRECTIONS.find(([word]) => word === points)?.[1] ?? start.direction;
    const centre = { at, direction, up: upFor(direction) };
    const primaryIds = isFilled ? header.primaries.filter(({ inletId }) => inletId === null).map(({ id }) => id) : [];
    const spec = { name: name.split(',')[0] ?? name, layout: { pattern, count, od, gap, centre }, primaryIds };
    const edit = collectorPatternEdit(header, spec, () => session.newId());
    const done = edit.ok ? session.apply(edit.value) : edit;
    if (done.ok) onDone();
    else form.setProblem({ field: null, words: wordsFor(done.problems) });
  };
  return (
    <ShapeForm form={form} label="Collector by pattern" takeWords="Add collector" onTake={take} onClose={onDone}>
      <div className="pose-fields">
        <ChoiceField<PatternId> label="Pattern" choices={PATTERNS} chosen={patternId} onChoose={setPatternId} />
        <DraftField form={form} name="od" label={`Inlet tube OD (${unit})`} />
        <DraftField form={form} name="gap" label={`Gap between tubes (${unit})`} />
        <DraftField form={form} name="x" label={`Middle forward (${unit})`} />
        <DraftField form={form} name="y" label={`Middle outboard (${unit})`} />
        <DraftField form={form} name="z" label={`Middle up (${unit})`} />
        <ChoiceField label="Points" choices={WORDS} chosen={points} onChoose={setPoints} />
      </div>
      <label className="choice">
        <input type="checkbox" checked={isFilled} onChange={(event) => setIsFilled(event.target.checked)} />
        Primaries without an inlet end in these, in order
      </label>
    </ShapeForm>
  );
}
