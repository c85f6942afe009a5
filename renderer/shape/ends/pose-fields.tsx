/** A pose: a place, the direction of travel through it, and what counts as up there. */

import {
  type Direction,
  frameOfPose,
  type LengthUnit,
  type Pose,
  type Problem,
  type Result,
  upFor,
} from '../../../core/index.ts';
import { DirectionFields, PlaceFields } from './place-fields.tsx';

interface Props {
  readonly label: string;
  readonly pose: Pose;
  readonly unit: LengthUnit;
  readonly onTake: (pose: Pose) => Result<unknown, Problem>;
}

export function PoseFields({ label, pose, unit, onTake }: Props) {
  /** Words for what is wrong with a pose are core's, said at the field that was typed into. */
  const take = (next: Pose): Result<unknown, Problem> => {
    const frame = frameOfPose(next);
    return frame.ok ? onTake(next) : frame;
  };
  /** A preset that would run along the up in force takes an up that suits it. */
  const choose = (direction: Direction) => {
    const next = { ...pose, direction };
    onTake(frameOfPose(next).ok ? next : { ...next, up: upFor(direction) });
  };
  return (
    <div className="pose-fields">
      <PlaceFields label={label} place={pose.at} unit={unit} onTake={(at) => take({ ...pose, at })} />
      <DirectionFields
        label={`${label} points`}
        direction={pose.direction}
        path={['direction']}
        onTake={(direction) => take({ ...pose, direction })}
        onChoose={choose}
      />
      <DirectionFields
        label={`${label} up (clocking 0)`}
        direction={pose.up}
        path={['up']}
        onTake={(up) => take({ ...pose, up })}
      />
    </div>
  );
}
