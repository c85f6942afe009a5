/** Obstacles that tubes must keep clear of: a rail, a steering shaft, a wheel well. */

import {
  addObstacleEdit,
  assertNever,
  failure,
  type LengthUnit,
  OBSTACLE_KINDS,
  type Obstacle,
  type Problem,
  type Result,
  removeObstacleEdit,
  replaceObstacleEdit,
  unitOf,
} from '../../../core/index.ts';
import { Button } from '../../ui/button.tsx';
import { LengthField, TakenField } from '../../ui/fields/length-field.tsx';
import { DirectionFields, PlaceFields } from '../ends/place-fields.tsx';
import type { ShapeProps } from '../shape-props.ts';

export function ObstaclesPanel({ session, header }: ShapeProps) {
  const unit = unitOf(header.settings.display);
  return (
    <div className="shape-stack">
      <div className="actions">
        {OBSTACLE_KINDS.map(({ kind, name }) => (
          <Button
            key={kind}
            onPress={() => session.apply(addObstacleEdit(header, kind, { id: session.newId(), unit }))}
          >
            Add {name.toLowerCase()}
          </Button>
        ))}
      </div>
      {header.obstacles.length === 0 ? (
        <p>No obstacles. Add a box for a rail, a cylinder for a shaft, a plane for a floor or a wheel well.</p>
      ) : null}
      {header.obstacles.map((obstacle) => (
        <section key={obstacle.id} className="shape-part" aria-label={obstacle.name}>
          <h2 className="shape-heading">{obstacle.name}</h2>
          <ObstacleFields
            obstacle={obstacle}
            unit={unit}
            onTake={(changed) => session.apply(replaceObstacleEdit(changed))}
          />
          <Button look="quiet" onPress={() => session.apply(removeObstacleEdit(obstacle.id))}>
            Remove {obstacle.name}
          </Button>
        </section>
      ))}
    </div>
  );
}

interface FieldsProps<Kind extends Obstacle = Obstacle> {
  readonly obstacle: Kind;
  readonly unit: LengthUnit;
  readonly onTake: (obstacle: Obstacle) => Result<unknown, Problem>;
}

function ObstacleFields(props: FieldsProps) {
  const { obstacle, onTake } = props;
  return (
    <div className="pose-fields">
      <TakenField
        label={`Name of ${obstacle.name}`}
        stored={obstacle.name}
        holdsWords
        take={(text) => {
          const name = text.trim();
          if (name !== '') return onTake({ ...obstacle, name });
          return failure({ kind: 'invalidValue', path: ['obstacles', 'name'], expected: 'a name', found: 'nothing' });
        }}
      />
      <ShapeFields {...props} />
    </div>
  );
}

function ShapeFields({ obstacle, unit, onTake }: FieldsProps) {
  switch (obstacle.kind) {
    case 'box': {
      const { corner, opposite } = obstacle;
      return (
        <>
          <PlaceFields label="Corner" place={corner} unit={unit} onTake={(to) => onTake({ ...obstacle, corner: to })} />
          <PlaceFields
            label="Opposite corner"
            place={opposite}
            unit={unit}
            onTake={(to) => onTake({ ...obstacle, opposite: to })}
          />
        </>
      );
    }
    case 'cylinder':
      return (
        <>
          <PlaceFields
            label="From"
            place={obstacle.from}
            unit={unit}
            onTake={(from) => onTake({ ...obstacle, from })}
          />
          <PlaceFields label="To" place={obstacle.to} unit={unit} onTake={(to) => onTake({ ...obstacle, to })} />
          <LengthField
            label="Diameter"
            value={obstacle.diameter}
            unit={unit}
            onTake={(diameter) => onTake({ ...obstacle, diameter })}
          />
        </>
      );
    case 'plane':
      return (
        <>
          <PlaceFields label="Through" place={obstacle.at} unit={unit} onTake={(at) => onTake({ ...obstacle, at })} />
          <DirectionFields
            label="Tubes are on the side"
            direction={obstacle.normal}
            path={['normal']}
            onTake={(normal) => onTake({ ...obstacle, normal })}
          />
        </>
      );
    default:
      return assertNever(obstacle);
  }
}
