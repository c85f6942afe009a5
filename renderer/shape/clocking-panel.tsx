/** Clocking of the bend in hand: by dial, by number, by two readings of an angle gauge, or as a mark round the tube. */

import { useState } from 'react';
import {
  type Bend,
  clockingFromGauge,
  clockingFromMark,
  clockingMarkMm,
  formatAngle,
  formatDeviation,
  formatTypedAngle,
  type LookingFrom,
  lengthIn,
  mmOf,
  type PieCutBend,
  type Problem,
  parseAngle,
  parseSignedLength,
  type Result,
  replacePieceEdit,
  roundedTo,
  tubeOf,
  unitOf,
  wallThinning,
} from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { ClockingDial } from '../ui/fields/clocking-dial.tsx';
import { TakenField } from '../ui/fields/length-field.tsx';
import { TextField } from '../ui/fields/text-field.tsx';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { wordsFor } from '../ui/words/problem-words.ts';
import { wallText } from '../ui/words/wall-words.ts';
import type { ShapeProps } from './shape-props.ts';

export function ClockingPanel(props: ShapeProps) {
  const { piece } = props;
  if (piece === null || piece.kind === 'straight') {
    return <p className="shape-finding">Choose a bend in the grid or in the picture to clock it.</p>;
  }
  return <ClockBend key={piece.id} {...props} bend={piece} />;
}

interface BendProps extends ShapeProps {
  readonly bend: Bend | PieCutBend;
}

function ClockBend(props: BendProps) {
  const { session, header, primary, bend } = props;
  const number = primary.pieces.findIndex(({ id }) => id === bend.id) + 1;
  const isFirst = primary.pieces.slice(0, number - 1).every(({ kind }) => kind === 'straight');
  const clock = (clockingDeg: number): Result<unknown, Problem> =>
    session.apply(replacePieceEdit(primary, { ...bend, clockingDeg }));
  const { display } = header.settings;
  const clockingDeg = bend.clockingDeg ?? 0;
  return (
    <div className="shape-columns">
      <div className="shape-stack">
        <p className="shape-finding">
          Piece {number}:{' '}
          {bend.clockingDeg === null ? 'clocking not recorded' : `clocked ${formatAngle(roundedTo(clockingDeg, 2))}`}{' '}
          from {isFirst ? 'port-up' : 'the plane of the bend before'}.
        </p>
        <div className="pose-fields">
          <TakenField
            label="Clocking (°)"
            stored={bend.clockingDeg === null ? '' : formatTypedAngle(bend.clockingDeg)}
            take={(text) => {
              const read = parseAngle(withDecimalPoints(text));
              return read.ok ? clock(read.value) : read;
            }}
          />
          <MarkField {...props} onClock={clock} />
        </div>
        <p className="view-note">
          Mark round the outside:{' '}
          <FigureText text={formatDeviation(clockingMarkMm(mmOf(tubeOf(header, primary).od), clockingDeg), display)} />{' '}
          {unitOf(display)}, clockwise seen from the port when positive.
        </p>
        {bend.kind === 'bend' ? <ThinnedNote {...props} bend={bend} /> : null}
        <GaugePart onClock={clock} />
      </div>
      <figure className="axes-picture">
        <ClockingDial label={`Clocking of piece ${number}`} clockingDeg={clockingDeg} onSettle={clock} />
        <figcaption>
          Seen from the port along the tube. Arrow keys turn by 1°, with Shift by 0.1°, Page keys by 15°.
        </figcaption>
      </figure>
    </div>
  );
}

/** How thin the wall is on the outside of the bend. */
function ThinnedNote({ header, primary, bend }: Pick<ShapeProps, 'header' | 'primary'> & { readonly bend: Bend }) {
  const { od, wall } = tubeOf(header, primary);
  const { wallMm, share } = wallThinning({ odMm: mmOf(od), wallMm: mmOf(wall) }, mmOf(bend.clr));
  return (
    <p className="view-note">
      Wall on the outside of this bend: about {wallText(wallMm, header.settings.display)}, {Math.round(share * 100)} %
      thinner. A rule of thumb of bending tool makers: (Ro − CLR) / Ro.
    </p>
  );
}

/** The distance typed is the signed one; what it makes is rounded to what a tape can say. */
function MarkField({
  header,
  primary,
  bend,
  onClock,
}: BendProps & { readonly onClock: (deg: number) => Result<unknown, Problem> }) {
  const unit = unitOf(header.settings.display);
  const odMm = mmOf(tubeOf(header, primary).od);
  const markMm = clockingMarkMm(odMm, bend.clockingDeg ?? 0);
  // Thousandths of an inch, hundredths of a millimetre: more than a tape can say.
  const inUnit = lengthIn(markMm, unit).value.toFixed(unit === 'in' ? 3 : 2);
  return (
    <TakenField
      label={`Mark round the tube (${unit})`}
      stored={bend.clockingDeg === null ? '' : String(Number(inUnit))}
      take={(text) => {
        const read = parseSignedLength(withDecimalPoints(text), unit);
        return read.ok ? onClock(roundedTo(clockingFromMark(odMm, mmOf(read.value)), 2)) : read;
      }}
    />
  );
}

const SIDES = [
  { id: 'port', name: 'from the port' },
  { id: 'collector', name: 'from the collector' },
] as const;

function GaugePart({ onClock }: { readonly onClock: (deg: number) => Result<unknown, Problem> }) {
  const [before, setBefore] = useState('');
  const [own, setOwn] = useState('');
  const [lookingFrom, setLookingFrom] = useState<LookingFrom>('port');
  const [problem, setProblem] = useState<string | null>(null);
  const [beforeDeg, bendDeg] = [parseAngle(withDecimalPoints(before)), parseAngle(withDecimalPoints(own))];
  const result =
    beforeDeg.ok && bendDeg.ok
      ? roundedTo(clockingFromGauge({ beforeDeg: beforeDeg.value, bendDeg: bendDeg.value, lookingFrom }), 2)
      : null;
  const wordsOf = (text: string, read: Result<number, Problem>) =>
    text.trim() === '' || read.ok ? null : wordsFor(read.problems);
  return (
    <section className="shape-part" aria-label="From an angle gauge">
      <h2 className="shape-heading">From an angle gauge</h2>
      <div className="pose-fields">
        <TextField
          label="Reading on the bend before"
          value={before}
          onChange={setBefore}
          problem={wordsOf(before, beforeDeg)}
        />
        <TextField label="Reading on this bend" value={own} onChange={setOwn} problem={wordsOf(own, bendDeg)} />
        <ChoiceField<LookingFrom> label="Looking" choices={SIDES} chosen={lookingFrom} onChoose={setLookingFrom} />
      </div>
      <div className="actions">
        <output className="tape-result">{result === null ? '–' : formatAngle(result)}</output>
        <Button
          isDisabled={result === null}
          onPress={() => {
            if (result === null) return;
            const done = onClock(result);
            setProblem(done.ok ? null : wordsFor(done.problems));
          }}
        >
          Use this clocking
        </Button>
      </div>
      {problem === null ? null : (
        <p role="alert" className="field-problem">
          <FigureText text={problem} />
        </p>
      )}
    </section>
  );
}
