/** Says that the header is damaged on disk, and offers to go on in a copy of what is sound. */

import { describeProblem } from '../../../core/index.ts';
import { useHeaderActs } from '../../session/header-acts.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import type { OpenedHeader } from '../../session/session-state.ts';
import { useSession } from '../../session/use-session.ts';
import { Button } from '../../ui/button.tsx';

interface Props {
  readonly session: HeaderSession;
  readonly onCopied: (opened: OpenedHeader) => void;
}

export function DamageNote({ session, onCopied }: Props) {
  const damage = useSession(session, (state) => state.damage);
  const name = useSession(session, (state) => state.header.name);
  const acts = useHeaderActs();
  if (damage === null) return null;
  const goOn = async () => {
    const opened = await acts.duplicate({ headerId: session.headerId, name }, 'same');
    if (opened !== null) onCopied(opened);
  };
  return (
    <div className="frozen" role="alert">
      <p>{describeProblem(damage)}</p>
      <Button onPress={() => void goOn()}>Go on in a copy</Button>
    </div>
  );
}
