/** Two primaries piece by piece: what differs, which joint explains the miss, and what mending it does. */

import { useState } from 'react';
import { type Compared, comparePrimaries, type LengthStyle, mendEdit, reclockEdit } from '../../../core/index.ts';
import { Button } from '../../ui/button.tsx';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { FigureText } from '../../ui/figure-text.tsx';
import { closureWords } from '../../ui/words/closure-words.ts';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import type { ShapeProps } from '../shape-props.ts';
import { againstWords, differenceWords, turnWords } from './compare-words.ts';

export function ComparePart({ session, header, primary }: ShapeProps) {
  const others = header.primaries.filter(({ id }) => id !== primary.id);
  const [referenceId, setReferenceId] = useState(others[0]?.id ?? '');
  const reference = others.find(({ id }) => id === referenceId) ?? others[0];
  const title = primaryTitle(primary.name);
  if (reference === undefined) return null;
  const comparison = comparePrimaries(reference, primary);
  return (
    <section className="shape-part" aria-label="Compare">
      <h2 className="shape-heading">Compare {title}</h2>
      <div className="pose-fields">
        <ChoiceField
          label={`${title} should be like`}
          choices={others.map(({ id, name }) => ({ id, name: primaryTitle(name) }))}
          chosen={reference.id}
          onChoose={setReferenceId}
        />
      </div>
      {comparison.ok ? (
        <Findings
          compared={{ reference, other: primary, comparison: comparison.value }}
          session={session}
          style={header.settings.display}
        />
      ) : (
        <p>
          <FigureText text={wordsFor(comparison.problems)} />
        </p>
      )}
    </section>
  );
}

interface FindingsProps {
  readonly compared: Compared;
  readonly session: ShapeProps['session'];
  readonly style: LengthStyle;
}

function Findings({ compared, session, style }: FindingsProps) {
  const { comparison, other, reference } = compared;
  const { differences, bestJoint, closure } = comparison;
  const hand = comparison.isMirrored
    ? 'It is a mirror image, so clockings are compared with their signs changed. '
    : '';
  if (differences.length === 0) {
    return <p className="shape-finding">{hand}No piece differs.</p>;
  }
  const turn = bestJoint === null ? null : reclockEdit(other, bestJoint);
  return (
    <>
      <p className="shape-finding">
        {hand}
        {closure === null ? (
          'The clockings are not all recorded, so only the pieces can be compared.'
        ) : (
          <FigureText
            text={`From the same port ${primaryTitle(other.name)} ${againstWords(closureWords(closure, style), reference.name)}.`}
          />
        )}
      </p>
      {bestJoint === null || turn === null || closure === null ? null : (
        <div className="shape-offer">
          <p>
            <FigureText text={againstWords(turnWords(bestJoint, closure, style), reference.name)} />
          </p>
          <Button look="main" onPress={() => session.apply(turn)}>
            Re-clock piece {bestJoint.pieceIndex + 1}
          </Button>
        </div>
      )}
      <DifferenceTable compared={compared} session={session} style={style} />
    </>
  );
}

function DifferenceTable({ compared, session, style }: FindingsProps) {
  const { differences, bestMending } = compared.comparison;
  return (
    <div className="table-scroll">
      <table className="table">
        <thead>
          <tr>
            <th scope="col">Differs</th>
            <th scope="col">Once made the same</th>
            <th scope="col">
              <span className="visually-hidden">What to do</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {differences.map((difference) => {
            const words = differenceWords(difference, style);
            const after = difference.closureAfterMending;
            const edit = mendEdit(compared, difference, session.newId());
            return (
              <tr key={words}>
                <th scope="row">
                  <FigureText text={words} />
                  {difference === bestMending ? ' (explains it best)' : ''}
                </th>
                <td>
                  {after === null ? (
                    '–'
                  ) : (
                    <FigureText text={againstWords(closureWords(after, style), compared.reference.name)} />
                  )}
                </td>
                <td>
                  {edit === null ? null : (
                    <Button aria-label={`Make the same: ${words}`} onPress={() => session.apply(edit)}>
                      Make the same
                    </Button>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
