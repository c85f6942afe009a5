/** A tuned length as the target: a formula, what it takes, where it is from and where it ends; a starting point, said to be one. */

import {
  boreMm,
  endCorrectionMm,
  engineOf,
  firstTunedInputs,
  formatLength,
  type Header,
  type Problem,
  parseVolume,
  type Result,
  setSettingsEdit,
  TUNED_FORMULAS,
  type TunedFormula,
  type TunedFormulaEntry,
  type TunedInputName,
  type TunedInputs,
  type TunedLength,
  type TunedSource,
  tunedBore,
  tunedLength,
  tunedTarget,
  unitOf,
  volumeText,
} from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { LengthField, TakenField } from '../ui/fields/length-field.tsx';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { wordsFor } from '../ui/words/problem-words.ts';
import { wallText } from '../ui/words/wall-words.ts';
import { NumberField } from './engine-fields.tsx';
import './gas.css';

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly tuned: TunedSource;
}

const INPUT_WORDS: Readonly<Record<Exclude<TunedInputName, 'port'>, string>> = {
  rpm: 'Tuned to (rpm)',
  openingDeg: 'Valve opens before BDC (°)',
  travelDeg: 'Angle out and back (°)',
  order: 'Multiple of firing',
  soundMs: 'Speed of sound (m/s)',
};

export function TunedFields({ session, header, tuned }: Props) {
  const { display } = header.settings;
  const entry = TUNED_FORMULAS.find(({ id }) => id === tuned.formula);
  const found = tunedLength(tuned.formula, tuned.inputs);
  const set = (change: Partial<TunedSource>): Result<unknown, Problem> =>
    takeTuned({ session, header }, { ...tuned, ...change });
  const setInput = (change: Partial<TunedInputs>) => set({ inputs: { ...tuned.inputs, ...change } });
  if (entry === undefined) return null;
  return (
    <section className="gas-tuned" aria-label="Tuned length">
      <ChoiceField<TunedFormula>
        label="Formula"
        choices={TUNED_FORMULAS.map(({ id, name }) => ({ id, name }))}
        chosen={tuned.formula}
        onChoose={(formula) => set({ formula })}
      />
      <div className="gas-fields">
        {entry.inputs.map((name) =>
          name === 'port' ? (
            <LengthField
              key={name}
              label="Port, valve to flange"
              value={tuned.inputs.port}
              unit={unitOf(display)}
              onTake={(port) => setInput({ port })}
            />
          ) : (
            <NumberField
              key={name}
              label={INPUT_WORDS[name]}
              value={tuned.inputs[name]}
              field={name}
              onTake={(value) => setInput({ [name]: value })}
            />
          ),
        )}
      </div>
      {found.ok ? (
        <TunedResult header={header} found={found.value} tuned={tuned} />
      ) : (
        <p role="alert" className="field-problem">
          <FigureText text={wordsFor(found.problems)} />
        </p>
      )}
      <TakenField
        label="One cylinder (ml)"
        stored={volumeText(tuned.inputs.cylinder, 'ml')}
        take={(text) => {
          const read = parseVolume(withDecimalPoints(text), 'ml');
          return read.ok ? setInput({ cylinder: read.value }) : read;
        }}
      />
      <AboutFormula entry={entry} />
    </section>
  );
}

interface ResultProps {
  readonly header: Header;
  readonly tuned: TunedSource;
  readonly found: TunedLength;
}

function TunedResult({ header, tuned, found }: ResultProps) {
  const { display, tube } = header.settings;
  const length = (mm: number) => formatLength(mm, display);
  const ends = `${length(found.lengthMm)} from flange face to collector, ${length(found.fromValveMm)} from the valve.`;
  const second = found.secondMm === null ? '' : ` Second pipes: ${length(found.secondMm)}.`;
  const own = boreMm(tube);
  const bore = tunedBore(tuned.inputs.cylinder, { ...found, boreMm: own });
  return (
    <>
      <p role="status">
        <strong>A starting point:</strong> <FigureText text={ends + second} />
      </p>
      <p className="view-note">
        <FigureText
          text={`A bore of ${wallText(bore.boreMm, display)} goes with it by the valve timing rule; this tube’s is ${wallText(own, display)}, which lets peak torque come near ${Math.round(bore.peakTorqueRpm / 10) * 10} rpm (88,200 × area / displacement in inches, J. McFarland).`}
        />{' '}
        {tuned.formula !== 'quarterWave' ? null : (
          <FigureText
            text={`An open end makes it sound ${length(endCorrectionMm(own, false))} longer, one in a flange ${length(endCorrectionMm(own, true))}.`}
          />
        )}
      </p>
    </>
  );
}

function AboutFormula({ entry }: { readonly entry: TunedFormulaEntry }) {
  return (
    <dl className="gas-about">
      <dt>Formula</dt>
      <dd>{entry.formula}</dd>
      <dt>Source</dt>
      <dd>{entry.source}</dd>
      <dt>Limits</dt>
      <dd>{entry.limits}</dd>
      <dt>Variants</dt>
      <dd>{entry.variants}</dd>
    </dl>
  );
}

/** The length that the formula gives, as the target, with where it came from; refused where it gives none. */
export function takeTuned({ session, header }: Omit<Props, 'tuned'>, tuned: TunedSource): Result<unknown, Problem> {
  const target = tunedTarget(tuned, header.settings.display);
  return target.ok ? session.apply(setSettingsEdit({ target: target.value })) : target;
}

/** What a tuned target starts from: the first formula, with the header's own engine. */
export function firstTuned(header: Header): TunedSource {
  return { formula: 'valveTiming', inputs: firstTunedInputs(engineOf(header)) };
}
