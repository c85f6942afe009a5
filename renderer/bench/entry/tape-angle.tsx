/** The angle of an odd bend from a tape measure, worked out beside its row and put into it. */

import { useRef, useState } from 'react';
import {
  angleFromChord,
  angleFromInsideArc,
  angleFromOutsideArc,
  type Bend,
  failure,
  formatAngle,
  formatTypedAngle,
  type Length,
  type LengthUnit,
  mmOf,
  type PieCutBend,
  type Problem,
  parseLength,
  type Result,
  roundedTo,
  success,
} from '../../../core/index.ts';
import { Button } from '../../ui/button.tsx';
import { TextField } from '../../ui/fields/text-field.tsx';
import { withDecimalPoints } from '../../ui/fields/typed-numbers.ts';
import { wordsFor } from '../../ui/words/problem-words.ts';

export type TapeWay = 'outsideArc' | 'insideArc' | 'chord';

const WAYS: readonly { readonly way: TapeWay; readonly name: string; readonly hint: string }[] = [
  { way: 'outsideArc', name: 'Outside arc', hint: 'Tape along the outside of the bend, from cut to cut.' },
  { way: 'insideArc', name: 'Inside arc', hint: 'Tape along the inside of the bend, from cut to cut.' },
  { way: 'chord', name: 'Chord', hint: 'Straight across, from the centre of one end to the centre of the other.' },
];

export interface TapedBend {
  readonly way: TapeWay;
  readonly text: string;
  readonly unit: LengthUnit;
  readonly clr: Length;
  readonly od: Length;
}

/** Degrees, to the hundredth: a tape does not say more. */
export function angleByTape({ way, text, unit, clr, od }: TapedBend): Result<number, Problem> {
  const tape = parseLength(withDecimalPoints(text), unit);
  if (!tape.ok) return failure(...tape.problems);
  const measuredMm = mmOf(tape.value);
  const bend = { clrMm: mmOf(clr), odMm: mmOf(od) };
  const angle =
    way === 'chord'
      ? angleFromChord({ clrMm: bend.clrMm, chordMm: measuredMm })
      : (way === 'outsideArc' ? angleFromOutsideArc : angleFromInsideArc)({ ...bend, arcMm: measuredMm });
  return angle.ok ? success(roundedTo(angle.value, 2)) : failure(...angle.problems);
}

interface Props {
  readonly piece: Bend | PieCutBend;
  readonly index: number;
  readonly od: Length;
  readonly unit: LengthUnit;
  readonly onTake: (angleDeg: number) => void;
  readonly onClose: () => void;
}

export function TapeAngle({ piece, index, od, unit, onTake, onClose }: Props) {
  const [way, setWay] = useState<TapeWay>('outsideArc');
  const [text, setText] = useState('');
  const [isTried, setIsTried] = useState(false);
  const panel = useRef<HTMLElement>(null);
  const angle = angleByTape({ way, text, unit, clr: piece.clr, od });
  const take = () => {
    setIsTried(true);
    if (angle.ok) onTake(angle.value);
  };
  return (
    <section
      ref={panel}
      className="tape"
      aria-label={`Angle of piece ${index + 1} by tape`}
      onKeyDown={(event) => {
        if (event.key !== 'Escape') return;
        event.stopPropagation();
        onClose();
      }}
    >
      <h3>
        Piece {index + 1}: angle by tape (now {formatAngle(piece.angleDeg)})
      </h3>
      <TapeWays way={way} onChoose={setWay} />
      <div className="tape-line">
        <TextField
          label={`Tape reads (${unit})`}
          value={text}
          onChange={setText}
          autoFocus
          problem={!angle.ok && (isTried || text !== '') && text.trim() !== '' ? wordsFor(angle.problems) : null}
          onKeyDown={(event) => {
            if (event.key === 'Enter') take();
          }}
        />
        <output className="tape-result">{angle.ok ? `${formatTypedAngle(angle.value)}°` : '–'}</output>
        <Button look="main" isDisabled={!angle.ok} onPress={take}>
          Use this angle
        </Button>
        <Button onPress={onClose}>Close</Button>
      </div>
    </section>
  );
}

function TapeWays({ way, onChoose }: { readonly way: TapeWay; readonly onChoose: (way: TapeWay) => void }) {
  return (
    <>
      <fieldset className="tape-ways">
        <legend className="visually-hidden">What was measured</legend>
        {WAYS.map((candidate) => (
          <label key={candidate.way} className="choice">
            <input
              type="radio"
              name="tape-way"
              checked={candidate.way === way}
              onChange={() => onChoose(candidate.way)}
            />
            {candidate.name}
          </label>
        ))}
      </fieldset>
      <p className="tape-hint">{WAYS.find((candidate) => candidate.way === way)?.hint}</p>
    </>
  );
}
