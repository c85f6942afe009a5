/** How far one degree at each joint moves the end, what the shop's tolerances make of it, and how thin each bend is outside. */

import {
  endReach,
  formatLength,
  formatTypedAngle,
  type JointReach,
  type LengthStyle,
  mmOf,
  parseAngle,
  type ShopTolerances,
  setTolerancesEdit,
  tolerancesOf,
  tubeOf,
  USUAL_TOLERANCES,
  unitOf,
  wallThinning,
} from '../../core/index.ts';
import { LengthField, TakenField } from '../ui/fields/length-field.tsx';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { wordsFor } from '../ui/words/problem-words.ts';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import { wallText } from '../ui/words/wall-words.ts';
import type { AsBuiltProps } from './as-built-props.ts';
import { isSameTolerances, scatterWords, watchWords } from './as-built-words.ts';

export function JointsPart(props: AsBuiltProps) {
  const { header, primary } = props;
  const { display } = header.settings;
  const reach = endReach(header, primary);
  return (
    <section className="asbuilt-part" aria-label="Which joint to watch">
      <h3 className="asbuilt-heading">Which joint to watch on {primaryTitle(primary.name)}</h3>
      {reach.ok ? (
        <>
          <p className="asbuilt-finding">
            <FigureText text={watchSentence(reach.value.joints, reach.value.watch, display)} />
          </p>
          <JointTable {...props} joints={reach.value.joints} watch={reach.value.watch} />
          <p>
            <FigureText text={scatterWords(reach.value, display)} />
          </p>
        </>
      ) : (
        <p>
          <FigureText text={wordsFor(reach.problems)} />
        </p>
      )}
      <ToleranceFields {...props} />
    </section>
  );
}

function watchSentence(joints: readonly JointReach[], watch: number | null, style: LengthStyle): string {
  const joint = joints[watch ?? -1];
  return joint === undefined ? 'There is no bend yet.' : watchWords(joint, style);
}

interface TableProps extends AsBuiltProps {
  readonly joints: readonly JointReach[];
  readonly watch: number | null;
}

function JointTable({ header, primary, joints, watch }: TableProps) {
  if (joints.length === 0) return null;
  const { display } = header.settings;
  const { od, wall } = tubeOf(header, primary);
  const thinned = (pieceIndex: number) => {
    const piece = primary.pieces[pieceIndex];
    if (piece?.kind !== 'bend') return '–';
    const { wallMm } = wallThinning({ odMm: mmOf(od), wallMm: mmOf(wall) }, mmOf(piece.clr));
    return wallText(wallMm, display);
  };
  return (
    <>
      <div className="table-scroll">
        <table className="table">
          <thead>
            <tr>
              <th scope="col">Piece</th>
              <th scope="col" className="number">
                1° clocked
              </th>
              <th scope="col" className="number">
                1° of angle
              </th>
              <th scope="col" className="number">
                Wall outside
              </th>
            </tr>
          </thead>
          <tbody>
            {joints.map((joint, index) => (
              <tr key={joint.pieceIndex} data-watched={index === watch || undefined}>
                <th scope="row">
                  {joint.pieceIndex + 1}
                  {index === watch ? ' watch' : ''}
                </th>
                <td className="number">
                  <FigureText text={formatLength(joint.clockingMm, display)} />
                </td>
                <td className="number">
                  <FigureText text={formatLength(joint.angleMm, display)} />
                </td>
                <td className="number">{thinned(joint.pieceIndex)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className="view-note">
        Wall outside a bend: (Ro − CLR) / Ro thinner, Ro being its outside radius. A rule of thumb of bending tool
        makers.
      </p>
    </>
  );
}

function ToleranceFields({ session, header }: AsBuiltProps) {
  const tolerances = tolerancesOf(header);
  if (header.state !== 'open') return null;
  const set = (change: Partial<ShopTolerances>) => session.apply(setTolerancesEdit({ ...tolerances, ...change }));
  const angleField = (label: string, name: 'angleDeg' | 'clockingDeg') => (
    <TakenField
      label={label}
      stored={formatTypedAngle(tolerances[name])}
      take={(text) => {
        const read = parseAngle(withDecimalPoints(text));
        return read.ok ? set({ [name]: read.value }) : read;
      }}
    />
  );
  return (
    <>
      <div className="asbuilt-fields">
        {angleField('Bends made within ± (°)', 'angleDeg')}
        {angleField('Clocked within ± (°)', 'clockingDeg')}
        <LengthField
          label="Straights cut within ±"
          value={tolerances.length}
          unit={unitOf(header.settings.display)}
          onTake={(length) => set({ length })}
        />
      </div>
      {isSameTolerances(tolerances, USUAL_TOLERANCES) ? (
        <p className="view-note">These are what bending shops print as their usual. Type your own.</p>
      ) : null}
    </>
  );
}
