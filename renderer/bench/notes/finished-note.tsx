/** Says that the header is finished, and offers to go on in a copy of it. */

import { useCommandRegistry } from '../../commands/command-registry.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { useSession } from '../../session/use-session.ts';
import { Button } from '../../ui/button.tsx';

/** Nothing where the header is not what was finished: that is said in its place. */
export function FinishedNote({ session }: { readonly session: HeaderSession }) {
  const registry = useCommandRegistry();
  const isDamaged = useSession(session, ({ damage }) => damage !== null);
  if (isDamaged) return null;
  return (
    <div className="frozen">
      <p>Finished: it does not change any more.</p>
      <Button onPress={() => registry.find('duplicateHeader')?.run()}>Duplicate</Button>
    </div>
  );
}
