/** Settings of the header: what is matched to what, how it is shown, and what a new piece starts from. */

import {
  failure,
  type Header,
  type MatchReport,
  type Problem,
  type Result,
  type Settings,
  setSettingsEdit,
  setToleranceEdit,
  setTubeEdit,
  unitOf,
} from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { LengthField, TakenField } from '../../ui/fields/length-field.tsx';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import { DISPLAY_CHOICES, displayChoice, TARGET_CHOICES, type TargetChoice, targetOf } from './setting-choices.ts';

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly report: MatchReport;
}

export function SettingsPanel({ session, header, report }: Props) {
  const { settings } = header;
  const unit = unitOf(settings.display);
  const set = (change: Partial<Settings>): Result<unknown, Problem> => session.apply(setSettingsEdit(change));
  return (
    <div className="settings">
      <TargetFields session={session} header={header} report={report} />
      <LengthField
        label="Accepted below"
        value={settings.tolerance.minus}
        unit={unit}
        onTake={(minus) => session.apply(setToleranceEdit(header, { minus }))}
      />
      <LengthField
        label="Accepted above"
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
      <LengthField label="Usual CLR" value={settings.clr} unit={unit} onTake={(clr) => set({ clr })} />
      <LengthField
        label="Shrinkage per weld"
        value={settings.weldShrinkage}
        unit={unit}
        onTake={(weldShrinkage) => set({ weldShrinkage })}
      />
    </div>
  );
}

function TargetFields({ session, header, report }: Props) {
  const { target, display } = header.settings;
  const unit = unitOf(display);
  const primaryChoices = header.primaries.map((primary) => ({
    id: `primary:${primary.id}` as const,
    name: `Same as ${primaryTitle(primary.name)}`,
  }));
  const chosen: TargetChoice = target.kind === 'primary' ? `primary:${target.primaryId}` : target.kind;
  return (
    <>
      <ChoiceField<TargetChoice>
        label="Match every primary to"
        choices={[...TARGET_CHOICES, ...primaryChoices]}
        chosen={chosen}
        onChoose={(choice) => {
          session.apply(setSettingsEdit({ target: targetOf(choice, { report, unit, before: target }) }));
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
    </>
  );
}

function TubeFields({ session, header }: Omit<Props, 'report'>) {
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
