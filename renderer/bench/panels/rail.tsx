/** The rail on the left of the bench: an icon and a word for each panel, one of which is open at a time. */

import { memo } from 'react';
import { Toolbar } from 'react-aria-components';
import { IconButton } from '../../ui/icon-button.tsx';
import { PANEL_FRAME_ID, type PanelId, panelsFor, railButtonId } from './panel-list.ts';
import './rail.css';

interface Props {
  readonly open: PanelId | null;
  readonly isFrozen: boolean;
  /** Given the panel that is open already, closes it. */
  readonly onToggle: (panel: PanelId) => void;
}

export const Rail = memo(function Rail({ open, isFrozen, onToggle }: Props) {
  return (
    <Toolbar className="rail screen-only" orientation="vertical" aria-label="Panels">
      {panelsFor(isFrozen).map(({ id, word, title, Icon }) => (
        <IconButton
          key={id}
          id={railButtonId(id)}
          className="rail-button"
          Icon={Icon}
          name={title}
          word={word}
          aria-expanded={open === id}
          {...(open === id ? { 'aria-controls': PANEL_FRAME_ID } : {})}
          onPress={() => onToggle(id)}
        />
      ))}
    </Toolbar>
  );
});
