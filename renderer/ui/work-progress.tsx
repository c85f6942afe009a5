/** How far long work is: a bar, a figure, and the way to stop it. */

import { Label, ProgressBar } from 'react-aria-components';
import { Button } from './button.tsx';

interface Props {
  /** What is being done: "Writing headers". */
  readonly words: string;
  readonly done: number;
  /** Zero: not known yet. */
  readonly of: number;
  /** The figure in words: "1,200 of 10,000 headers". */
  readonly figure: string;
  readonly onStop: () => void;
}

export function WorkProgress({ words, done, of, figure, onStop }: Props) {
  const share = of === 0 ? 0 : Math.min(1, done / of);
  return (
    <div className="work">
      <ProgressBar className="work-bar" value={share * 100} valueLabel={figure} isIndeterminate={of === 0}>
        <span className="work-words">
          <Label>{words}</Label>
          <span>{figure}</span>
        </span>
        <span className="work-track">
          <span className="work-fill" style={{ inlineSize: `${share * 100}%` }} />
        </span>
      </ProgressBar>
      <Button onPress={onStop}>Stop</Button>
    </div>
  );
}
