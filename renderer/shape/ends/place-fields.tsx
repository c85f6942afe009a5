/** A place in the header frame as three typed lengths, and a direction as words or numbers. */

import {
  DIRECTIONS,
  type Direction,
  type DirectionWord,
  directionWord,
  formatDirection,
  type LengthUnit,
  type Place,
  type Problem,
  type ProblemPath,
  parseDirection,
  parseSignedLength,
  type Result,
  typedText,
} from '../../../core/index.ts';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { TakenField } from '../../ui/fields/length-field.tsx';
import { withDecimalPoints } from '../../ui/fields/typed-numbers.ts';

const AXES = [
  ['x', 'forward'],
  ['y', 'outboard'],
  ['z', 'up'],
] as const;

interface PlaceProps {
  /** Before the name of each axis: "Port 2" gives "Port 2 forward (in)". */
  readonly label: string;
  readonly place: Place;
  readonly unit: LengthUnit;
  readonly onTake: (place: Place) => Result<unknown, Problem>;
}

export function PlaceFields({ label, place, unit, onTake }: PlaceProps) {
  return (
    <>
      {AXES.map(([axis, name]) => (
        <TakenField
          key={axis}
          label={`${label} ${name} (${unit})`}
          stored={typedText(place[axis], unit)}
          take={(text) => {
            const read = parseSignedLength(withDecimalPoints(text), unit);
            return read.ok ? onTake({ ...place, [axis]: read.value }) : read;
          }}
        />
      ))}
    </>
  );
}

interface DirectionProps {
  readonly label: string;
  readonly direction: Direction;
  readonly path: ProblemPath;
  readonly onTake: (direction: Direction) => Result<unknown, Problem>;
  /** A direction chosen from the list; left out: the same as a typed one. */
  readonly onChoose?: (direction: Direction) => void;
}

const CHOICES = [
  ...DIRECTIONS.map(([word]) => ({ id: word, name: word })),
  { id: 'typed', name: 'custom' },
] satisfies readonly { readonly id: DirectionWord | 'typed'; readonly name: string }[];

export function DirectionFields({ label, direction, path, onTake, onChoose }: DirectionProps) {
  return (
    <>
      <ChoiceField<DirectionWord | 'typed'>
        label={label}
        choices={CHOICES}
        chosen={directionWord(direction) ?? 'typed'}
        onChoose={(word) => {
          const chosen = DIRECTIONS.find(([known]) => known === word)?.[1];
          if (chosen !== undefined) (onChoose ?? onTake)(chosen);
        }}
      />
      <TakenField
        label={`${label}, custom`}
        stored={formatDirection(direction)}
        take={(text) => {
          const read = parseDirection(text, path);
          return read.ok ? onTake(read.value) : read;
        }}
      />
    </>
  );
}
