/** Settings of the header: what is matched to what, how it is shown, and what a new piece starts from. */

import { useState } from 'react';
import { TextField as AriaTextField, FieldError, Label, TextArea } from 'react-aria-components';
import {
  failure,
  type Header,
  type MatchReport,
  type Problem,
  type Result,
  type Settings,
  type StockItem,
  setNoteEdit,
  setSettingsEdit,
  setToleranceEdit,
  setTubeEdit,
  unitOf,
} from '../../../core/index.ts';
import { firstTuned, TunedFields, takeTuned } from '../../gas/tuned-fields.tsx';
import type { HeaderSession } from '../../session/header-session.ts';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { LengthField, TakenField } from '../../ui/fields/length-field.tsx';
import { FigureText } from '../../ui/figure-text.tsx';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import { DISPLAY_CHOICES, displayChoice, TARGET_CHOICES, type TargetChoice, targetOf } from './setting-choices.ts';
import { ShelfMaterial } from './shelf-material.tsx';

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly report: MatchReport;
}

export function SettingsPanel({
  session,
  header,
  report,
  stock,
}: Props & { readonly stock: readonly StockItem[] | null }) {
  const { settings } = header;
  const unit = unitOf(settings.display);
  const set = (change: Partial<Settings>): Result<unknown, Problem> => session.apply(setSettingsEdit(change));
  return (
    <div className="settings">
      <TargetFields session={session} header={header} report={report} />
      <LengthField
        label="Tolerance below target"
        value={settings.tolerance.minus}
        unit={unit}
        onTake={(minus) => session.apply(setToleranceEdit(header, { minus }))}
      />
      <LengthField
        label="Tolerance above target"
        value={settings.tolerance.plus}
        unit={unit}
        onTake={(plus) => session.apply(setToleranceEdit(header, { plus }))}
      />
      <ChoiceField
        label="Lengths shown in"
        choices={DISPLAY_CHOICES}
        chosen={displayChoice(settings.display)}
        onChoose={(id) => {
          const choice = DISPLAY_CHOICES.find((candidate) => candidate.id === id);
          if (choice) set({ display: choice.style });
        }}
      />
      <TubeFields session={session} header={header} />
      <ShelfMaterial session={session} header={header} stock={stock} />
      <LengthField label="Usual CLR" value={settings.clr} unit={unit} onTake={(clr) => set({ clr })} />
      <LengthField
        label="Shrinkage per weld"
        value={settings.weldShrinkage}
        unit={unit}
        onTake={(weldShrinkage) => set({ weldShrinkage })}
      />
      <NoteField key={header.id} session={session} note={header.note} />
    </div>
  );
}

/** Taken when it is left, so that a note is one step however long it is written at. */
const NOTE_MOST = 2000;

function NoteField({ session, note }: Pick<Props, 'session'> & { readonly note: string }) {
  /** Null while it shows what is stored. */
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const take = () => {
    if (typed === null) return;
    const taken = typed === note ? null : session.apply(setNoteEdit(typed));
    setProblem(taken === null || taken.ok ? null : wordsFor(taken.problems));
    if (taken === null || taken.ok) setTyped(null);
  };
  return (
    <AriaTextField
      className="field note-field"
      value={typed ?? note}
      onChange={setTyped}
      onBlur={take}
      isInvalid={problem !== null}
    >
      <Label className="field-label">Note of the header</Label>
      <TextArea className="field-input" rows={3} maxLength={NOTE_MOST} />
      {problem === null ? null : (
        <FieldError className="field-problem">
          <FigureText text={problem} />
        </FieldError>
      )}
    </AriaTextField>
  );
}

export function TargetFields({ session, header, report }: Props) {
  const { target, display } = header.settings;
  const unit = unitOf(display);
  const primaryChoices = header.primaries.map((primary) => ({
    id: `primary:${primary.id}` as const,
    name: `Same as ${primaryTitle(primary.name)}`,
  }));
  const tuned = target.kind === 'typed' ? target.tuned : undefined;
  const chosen: TargetChoice =
    target.kind === 'primary' ? `primary:${target.primaryId}` : tuned === undefined ? target.kind : 'tuned';
  return (
    <>
      <ChoiceField<TargetChoice>
        label="Match every primary to"
        choices={[...TARGET_CHOICES, ...primaryChoices]}
        chosen={chosen}
        onChoose={(choice) => {
          if (choice === 'tuned') takeTuned({ session, header }, firstTuned(header));
          else session.apply(setSettingsEdit({ target: targetOf(choice, { report, unit, before: target }) }));
        }}
      />
      {target.kind === 'typed' ? (
        <LengthField
          label="Target length"
          value={target.length}
          unit={unit}
          onTake={(length) => session.apply(setSettingsEdit({ target: { kind: 'typed', length } }))}
        />
      ) : null}
      {tuned === undefined ? null : <TunedFields session={session} header={header} tuned={tuned} />}
    </>
  );
}

export function TubeFields({ session, header }: Omit<Props, 'report'>) {
  const { tube, display } = header.settings;
  const unit = unitOf(display);
  const set = (change: Partial<typeof tube>) => session.apply(setTubeEdit(header, change));
  return (
    <>
      <TakenField
        label="Material"
        holdsWords
        stored={tube.material}
        take={(text) => {
          const material = text.trim();
          if (material !== '') return set({ material });
          return failure({
            kind: 'invalidValue',
            path: ['settings', 'tube', 'material'],
            expected: 'a name',
            found: 'nothing',
          });
        }}
      />
      <LengthField label="Tube OD" value={tube.od} unit={unit} onTake={(od) => set({ od })} />
      <LengthField label="Tube wall" value={tube.wall} unit={unit} onTake={(wall) => set({ wall })} />
    </>
  );
}
