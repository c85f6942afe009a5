/** Says that the header is finished, and offers to go on in a copy of it. */

import { useCommandRegistry } from '../../commands/command-registry.ts';
import { Button } from '../../ui/button.tsx';

export function FinishedNote() {
  const registry = useCommandRegistry();
  return (
    <div className="frozen">
      <p>Finished: it does not change any more.</p>
      <Button onPress={() => registry.find('duplicateHeader')?.run()}>Duplicate</Button>
    </div>
  );
}
