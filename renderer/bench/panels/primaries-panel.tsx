/** The primaries of the header as a list: rename, put in order, copy, remove, add. */

import { failure, type Header, type Primary, renamePrimaryEdit } from '../../../core/index.ts';
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
  return (
    <div className="primaries">
      <ul className="primary-list">
        {header.primaries.map((primary, index) => (
          <PrimaryLine
            key={primary.id}
            primary={primary}
            isFirst={index === 0}
            isLast={index === header.primaries.length - 1}
            session={session}
            acts={acts}
          />
        ))}
      </ul>
      <Button onPress={acts.addPrimary}>Add primary</Button>
    </div>
  );
}

function rename(session: HeaderSession, primaryId: string, text: string) {
  const name = text.trim();
  if (name !== '') return session.apply(renamePrimaryEdit(primaryId, name));
  return failure({ kind: 'invalidValue' as const, path: ['primaries', 'name'], expected: 'a name', found: 'nothing' });
}

interface LineProps extends Pick<Props, 'session' | 'acts'> {
  readonly primary: Primary;
  readonly isFirst: boolean;
  readonly isLast: boolean;
}

function PrimaryLine({ primary, isFirst, isLast, session, acts }: LineProps) {
  const { id } = primary;
  const title = primaryTitle(primary.name);
  return (
    <li className="primary-line">
      <TakenField
        label={`Name of ${title}`}
        stored={primary.name}
        holdsWords
        take={(text) => rename(session, id, text)}
      />
      <div className="actions">
        <Button aria-label={`Move ${title} up`} isDisabled={isFirst} onPress={() => acts.movePrimary(id, -1)}>
          Up
        </Button>
        <Button aria-label={`Move ${title} down`} isDisabled={isLast} onPress={() => acts.movePrimary(id, 1)}>
          Down
        </Button>
        <Button aria-label={`Duplicate ${title}`} onPress={() => acts.duplicatePrimary(id)}>
          Duplicate
        </Button>
        <Button aria-label={`Delete ${title}`} onPress={() => acts.removePrimary(id)}>
          Delete
        </Button>
      </div>
    </li>
  );
}
