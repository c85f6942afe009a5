/** A header without primaries: what to do first, with something that can be taken as it is. */

import { Button } from '../ui/button.tsx';
import type { BenchActs } from './use-bench-acts.ts';

const COUNTS = [4, 6, 8] as const;

export function EmptyBench({ acts }: { readonly acts: BenchActs }) {
  return (
    <div className="empty-bench">
      <h2>How many primaries?</h2>
      <p>One for each port. More can be added, and any can be renamed, at any time.</p>
      <div className="actions">
        {COUNTS.map((count) => (
          <Button key={count} look={count === 4 ? 'main' : 'plain'} onPress={() => acts.addPrimaries(count)}>
            {count} primaries
          </Button>
        ))}
        <Button onPress={acts.addPrimary}>1 primary</Button>
      </div>
    </div>
  );
}

interface FirstPieceProps {
  /** The example line, in the header's unit. */
  readonly example: string;
  readonly onTake: () => void;
}

/** A primary without pieces. */
export function FirstPiece({ example, onTake }: FirstPieceProps) {
  return (
    <div className="first-piece">
      <p>
        Start at the port. Type a length for a straight, or b and an angle for a bend, then Enter. A second number
        clocks the bend. Several pieces go in one line with a semicolon between them:
      </p>
      <p>
        <code>{example}</code>
      </p>
      <Button onPress={onTake}>Enter this example</Button>
    </div>
  );
}
