/** What a strip is made for: a primary, or the figures of a cope or a merge. */

import {
  formatTypedAngle,
  type Header,
  parseAngle,
  parseSignedLength,
  success,
  typedText,
  unitOf,
} from '../../core/index.ts';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { LengthField, TakenField } from '../ui/fields/length-field.tsx';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';
import { OneOf } from './one-of.tsx';
import { type Cope, type Merge, primaryChoices, type SheetChoice } from './sheet-choice.ts';

const STRIPS = [
  { id: 'along', name: 'Along a primary: saw lines, bends' },
  { id: 'clocking', name: 'Clocking, one a bend' },
  { id: 'pies', name: 'Pies of pie-cut bends' },
  { id: 'cope', name: 'Cope of a branch on a run' },
  { id: 'merge', name: 'Merge of 2, 3 or 4 tubes' },
] as const;

const CUTS = [
  { id: 'inside', name: "branch's inside" },
  { id: 'outside', name: "branch's outside" },
] as const;

const TUBES = [
  { id: '2', name: '2 tubes' },
  { id: '3', name: '3 tubes' },
  { id: '4', name: '4 tubes' },
] as const;

interface Props {
  readonly header: Header;
  readonly choice: SheetChoice;
  readonly onChoose: (change: Partial<SheetChoice>) => void;
}

export function StripFields(props: Props) {
  const { header, choice, onChoose } = props;
  const { strip } = choice;
  return (
    <>
      <ChoiceField label="Strip" choices={STRIPS} chosen={strip} onChoose={(next) => onChoose({ strip: next })} />
      {strip === 'cope' ? <CopeFields {...props} /> : null}
      {strip === 'merge' ? <MergeFields {...props} /> : null}
      {strip === 'cope' || strip === 'merge' ? null : (
        <OneOf
          label="Primary"
          list={primaryChoices(header)}
          id={choice.primaryId}
          onChoose={(primaryId) => onChoose({ primaryId })}
        />
      )}
    </>
  );
}

function CopeFields({ header, choice: { cope }, onChoose }: Props) {
  const unit = unitOf(header.settings.display);
  const set = (change: Partial<Cope>) => success(onChoose({ cope: { ...cope, ...change } }));
  const length = (label: string, field: 'runOd' | 'branchOd' | 'branchWall') => (
    <LengthField label={label} value={cope[field]} unit={unit} onTake={(value) => set({ [field]: value })} />
  );
  return (
    <>
      {length('Run OD', 'runOd')}
      {length('Branch OD', 'branchOd')}
      {length('Branch wall', 'branchWall')}
      <AngleField label="Angle (°)" value={cope.angleDeg} onTake={(angleDeg) => set({ angleDeg })} />
      <TakenField
        label={`Offset (${unit})`}
        stored={typedText(cope.offset, unit)}
        take={(text) => {
          const read = parseSignedLength(withDecimalPoints(text), unit);
          return read.ok ? set({ offset: read.value }) : read;
        }}
      />
      <ChoiceField label="Cut to the" choices={CUTS} chosen={cope.cutTo} onChoose={(cutTo) => set({ cutTo })} />
    </>
  );
}

function MergeFields({ header, choice: { merge }, onChoose }: Props) {
  const unit = unitOf(header.settings.display);
  const set = (change: Partial<Merge>) => success(onChoose({ merge: { ...merge, ...change } }));
  const chosen = TUBES.find(({ id }) => Number(id) === merge.tubes)?.id ?? '4';
  return (
    <>
      <ChoiceField
        label="Tubes"
        choices={TUBES}
        chosen={chosen}
        onChoose={(id) => set({ tubes: id === '2' ? 2 : id === '3' ? 3 : 4 })}
      />
      <LengthField label="Tube OD" value={merge.od} unit={unit} onTake={(od) => set({ od })} />
      <AngleField label="Lean (°)" value={merge.leanDeg} onTake={(leanDeg) => set({ leanDeg })} />
      <LengthField label="Outlet OD" value={merge.outletOd} unit={unit} onTake={(outletOd) => set({ outletOd })} />
    </>
  );
}

interface AngleProps {
  readonly label: string;
  readonly value: number;
  readonly onTake: (angleDeg: number) => ReturnType<typeof success>;
}

function AngleField({ label, value, onTake }: AngleProps) {
  return (
    <TakenField
      label={label}
      stored={formatTypedAngle(value)}
      take={(text) => {
        const read = parseAngle(withDecimalPoints(text));
        return read.ok ? onTake(read.value) : read;
      }}
    />
  );
}
