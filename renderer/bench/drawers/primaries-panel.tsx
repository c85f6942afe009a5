/** The primaries of the header as a list: rename, put in order, copy, remove, add. */

import { failure, type Header } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { Button } from '../../ui/button.tsx';
import { TakenField } from '../../ui/fields/length-field.tsx';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import type { BenchActs } from '../use-bench-acts.ts';

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly acts: BenchActs;
}

export function PrimariesPanel({ session, header, acts }: Props) {
  const rename = (primaryId: string, text: string) => {
    const name = text.trim();
    if (name !== '') return session.apply({ kind: 'setPrimary', primaryId, set: { name } });
    return failure({
      kind: 'invalidValue' as const,
      path: ['primaries', 'name'],
      expected: 'a name',
      found: 'nothing',
    });
  };
  return (
    <div className="primaries">
      <ul className="primary-list">
        {header.primaries.map((primary, index) => {
          const title = primaryTitle(primary.name);
          return (
            <li key={primary.id} className="primary-line">
              <TakenField
                label={`Name of ${title}`}
                stored={primary.name}
                holdsWords
                take={(text) => rename(primary.id, text)}
              />
              <div className="actions">
                <Button
                  aria-label={`Move ${title} up`}
                  isDisabled={index === 0}
                  onPress={() => acts.movePrimary(primary.id, -1)}
                >
                  Up
                </Button>
                <Button
                  aria-label={`Move ${title} down`}
                  isDisabled={index === header.primaries.length - 1}
                  onPress={() => acts.movePrimary(primary.id, 1)}
                >
                  Down
                </Button>
                <Button aria-label={`Duplicate ${title}`} onPress={() => acts.duplicatePrimary(primary.id)}>
                  Duplicate
                </Button>
                <Button aria-label={`Delete ${title}`} onPress={() => acts.removePrimary(primary.id)}>
                  Delete
                </Button>
              </div>
            </li>
          );
        })}
      </ul>
      <Button onPress={acts.addPrimary}>Add primary</Button>
    </div>
  );
}
