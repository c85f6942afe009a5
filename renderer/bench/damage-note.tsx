/** Says that the header is damaged on disk, and offers to go on in a copy of what is sound. */

import { useState } from 'react';
import { describeProblem } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import type { OpenedHeader } from '../session/session-state.ts';
import { useSession } from '../session/use-session.ts';
import { Button } from '../ui/button.tsx';
import { useAsk } from '../ui/host-bridge.ts';

interface Props {
  readonly session: HeaderSession;
  readonly onCopied: (opened: OpenedHeader) => void;
}

export function DamageNote({ session, onCopied }: Props) {
  const damage = useSession(session, (state) => state.damage);
  const name = useSession(session, (state) => state.header.name);
  const [refusal, setRefusal] = useState<string | null>(null);
  const ask = useAsk();
  if (damage === null) return null;
  const copy = async () => {
    const answer = await ask('duplicateHeader', { headerId: session.headerId, name });
    if (answer.ok) onCopied(answer.value);
    else setRefusal(answer.words);
  };
  return (
    <div className="frozen" role="alert">
      <p>{refusal ?? describeProblem(damage)}</p>
      <Button onPress={() => void copy()}>Go on in a copy</Button>
    </div>
  );
}
