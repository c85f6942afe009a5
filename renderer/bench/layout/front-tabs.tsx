/** Where stage and panel share one place: which of the two is in front. */

import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import type { BenchView } from '../bench-view.ts';

interface Props {
  readonly front: BenchView['front'];
  /** The open panel's title. */
  readonly panelTitle: string;
  readonly onFront: (front: BenchView['front']) => void;
}

export function FrontTabs({ front, panelTitle, onFront }: Props) {
  return (
    <ToggleButtonGroup
      className="front-tabs screen-only"
      aria-label="Stage or panel"
      selectionMode="single"
      disallowEmptySelection
      selectedKeys={[front]}
      onSelectionChange={(keys) => onFront(keys.has('panel') ? 'panel' : 'stage')}
    >
      <ToggleButton id="stage" className="front-tab">
        Stage
      </ToggleButton>
      <ToggleButton id="panel" className="front-tab">
        {panelTitle}
      </ToggleButton>
    </ToggleButtonGroup>
  );
}
