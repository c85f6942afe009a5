/** Closure of every primary at its inlet, and the joint that explains the miss of the one in hand best. */

import {
  closureLimits,
  findInlet,
  formatAngle,
  formatLength,
  type Header,
  isClosed,
  isWorthTurning,
  jointTurnsToInlet,
  type Primary,
  parseAngle,
  primaryClosure,
  reclockEdit,
  roundedTo,
  setClosureEdit,
  unitOf,
} from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { LengthField, TakenField } from '../ui/fields/length-field.tsx';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { closedWords, closureWords } from '../ui/words/closure-words.ts';
import { wordsFor } from '../ui/words/problem-words.ts';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import { turnWords } from './banks/compare-words.ts';
import type { ShapeProps } from './shape-props.ts';

export function ClosurePanel(props: ShapeProps) {
  const { session, header } = props;
  return (
    <div className="shape-stack">
      <BestJoint {...props} />
      <div className="table-scroll">
        <table className="table">
          <thead>
            <tr>
              <th scope="col">Primary</th>
              <th scope="col" className="number">
                Gap
              </th>
              <th scope="col" className="number">
                Tilt
              </th>
              <th scope="col">At its inlet</th>
            </tr>
          </thead>
          <tbody>
            {header.primaries.map((primary) => (
              <ClosureRow key={primary.id} header={header} primary={primary} />
            ))}
          </tbody>
        </table>
      </div>
      {header.state === 'open' ? <ClosedWithin session={session} header={header} /> : null}
    </div>
  );
}

function ClosedWithin({ session, header }: Pick<ShapeProps, 'session' | 'header'>) {
  const { closure, display } = header.settings;
  const unit = unitOf(display);
  return (
    <div className="pose-fields">
      <LengthField
        label="Closed within a gap of"
        value={closure.gap}
        unit={unit}
        onTake={(gap) => session.apply(setClosureEdit(header, { gap }))}
      />
      <TakenField
        label="and a tilt of (°)"
        stored={String(closure.tiltDeg)}
        take={(text) => {
          const read = parseAngle(withDecimalPoints(text));
          if (!read.ok) return read;
          return session.apply(setClosureEdit(header, { tiltDeg: read.value }));
        }}
      />
    </div>
  );
}

function ClosureRow({ header, primary }: { readonly header: Header; readonly primary: Primary }) {
  const style = header.settings.display;
  const closure = primaryClosure(header, primary);
  const inlet = primary.inletId === null ? null : findInlet(header, primary.inletId);
  if (!closure.ok || inlet === null) {
    return (
      <tr>
        <th scope="row">{primaryTitle(primary.name)}</th>
        <td className="number">–</td>
        <td className="number">–</td>
        <td>{closure.ok ? null : <FigureText text={wordsFor(closure.problems)} />}</td>
      </tr>
    );
  }
  const isDone = isClosed(closure.value, closureLimits(header, inlet));
  return (
    <tr data-closed={isDone}>
      <th scope="row">{primaryTitle(primary.name)}</th>
      <td className="number">
        <FigureText text={formatLength(closure.value.gapMm, style)} />
      </td>
      <td className="number">{formatAngle(roundedTo(closure.value.tiltDeg, 1))}</td>
      <td>
        <FigureText text={isDone ? closedWords(closure.value, style) : closureWords(closure.value, style)} />
      </td>
    </tr>
  );
}

function BestJoint({ session, header, primary }: ShapeProps) {
  const style = header.settings.display;
  const closure = primaryClosure(header, primary);
  const turns = jointTurnsToInlet(header, primary);
  const [best] = turns.ok ? turns.value : [];
  if (!closure.ok || primary.pieces.length === 0) return null;
  const title = primaryTitle(primary.name);
  const canTurn = header.state === 'open' && best !== undefined && isWorthTurning(best, closure.value);
  const edit = !canTurn ? null : reclockEdit(primary, best);
  return (
    <section className="shape-part" aria-label={`Closure of ${title}`}>
      <p className="shape-finding">
        {title} <FigureText text={closureWords(closure.value, style)} />.
      </p>
      {best !== undefined && edit !== null ? (
        <div className="shape-offer">
          <p>
            <FigureText text={turnWords(best, closure.value, style)} />
          </p>
          <Button onPress={() => session.apply(edit)}>Re-clock piece {best.pieceIndex + 1}</Button>
        </div>
      ) : null}
    </section>
  );
}
