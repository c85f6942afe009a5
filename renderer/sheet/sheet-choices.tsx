/** The choices above the preview: which sheet, and what it is to be made of. */

import type { Header } from '../../core/index.ts';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { OneOf } from './one-of.tsx';
import { inletChoices, primaryChoices, type SheetChoice } from './sheet-choice.ts';
import { StripFields } from './strip-fields.tsx';
import type { PaperName } from './use-pages.ts';

const KINDS = [
  { id: 'sheet', name: 'Build sheet' },
  { id: 'strips', name: 'True-size strips' },
  { id: 'fixture', name: 'Fixture sheet' },
] as const;

const PAPERS = [
  { id: 'letter', name: 'Letter, 8 1/2 × 11 in' },
  { id: 'a4', name: 'A4, 210 × 297 mm' },
] as const;

const BENCHES = [
  { id: 'flangeDown', name: 'Flange down' },
  { id: 'collectorDown', name: 'Collector down' },
  { id: 'threePlaces', name: 'On two ports and an inlet' },
] as const;

const PLANS = [
  { id: 'scaled', name: 'To scale, on one page' },
  { id: 'trueSize', name: 'In true size, in parts' },
] as const;

interface Props {
  readonly header: Header;
  readonly choice: SheetChoice;
  readonly paper: PaperName;
  readonly onChoose: (change: Partial<SheetChoice>) => void;
  readonly onPaper: (paper: PaperName) => void;
}

export function SheetChoices(props: Props) {
  const { choice, paper, onChoose, onPaper } = props;
  return (
    <div className="sheet-choices">
      <ChoiceField label="Sheet" choices={KINDS} chosen={choice.kind} onChoose={(kind) => onChoose({ kind })} />
      <ChoiceField label="Paper" choices={PAPERS} chosen={paper} onChoose={onPaper} />
      {choice.kind === 'strips' ? <StripFields {...props} /> : null}
      {choice.kind === 'fixture' ? <FixtureFields {...props} /> : null}
    </div>
  );
}

function FixtureFields({ header, choice, onChoose }: Props) {
  const { bench } = choice;
  const primaries = primaryChoices(header);
  const inlets = inletChoices(header);
  return (
    <>
      <ChoiceField label="Lies" choices={BENCHES} chosen={bench} onChoose={(next) => onChoose({ bench: next })} />
      {bench === 'collectorDown' ? null : (
        <OneOf
          label={bench === 'flangeDown' ? 'Port of' : 'First port of'}
          list={primaries}
          id={choice.primaryId}
          onChoose={(primaryId) => onChoose({ primaryId })}
        />
      )}
      {bench === 'threePlaces' ? (
        <OneOf
          label="Second port of"
          list={primaries}
          id={choice.otherPrimaryId}
          otherwise={primaries.length - 1}
          onChoose={(otherPrimaryId) => onChoose({ otherPrimaryId })}
        />
      ) : null}
      {bench === 'flangeDown' ? null : (
        <OneOf label="Inlet" list={inlets} id={choice.inletId} onChoose={(inletId) => onChoose({ inletId })} />
      )}
      <ChoiceField label="Plan" choices={PLANS} chosen={choice.plan} onChoose={(plan) => onChoose({ plan })} />
    </>
  );
}
