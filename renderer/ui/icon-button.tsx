/** A button with an icon: its name and key are shown while it is pointed at or has the focus. */

import type { LucideIcon } from 'lucide-react';
import { Button as AriaButton, type ButtonProps, Tooltip, TooltipTrigger } from 'react-aria-components';

interface Props extends Omit<ButtonProps, 'className' | 'style' | 'children' | 'aria-label'> {
  readonly Icon: LucideIcon;
  /** What it is or does, in full: its accessible name, and what the tooltip says. Begins with `word` where there is one. */
  readonly name: string;
  /** In sight under or beside the icon; left out: the icon stands alone. */
  readonly word?: string;
  /** The key that does the same, as the platform writes it. */
  readonly shownKey?: string | undefined;
  /** In place of the quiet button's look. */
  readonly className?: string;
}

const TOOLTIP_AFTER_MS = 500;

export function IconButton({ Icon, name, word, shownKey, className, ...rest }: Props) {
  return (
    <TooltipTrigger delay={TOOLTIP_AFTER_MS} closeDelay={0}>
      <AriaButton {...rest} aria-label={name} className={className ?? 'button button-quiet icon-button'}>
        <Icon className="icon" aria-hidden="true" />
        {word === undefined ? null : <span>{word}</span>}
      </AriaButton>
      <Tooltip className="tooltip" placement="bottom" offset={6}>
        {name}
        {shownKey === undefined ? null : <kbd className="key">{shownKey}</kbd>}
      </Tooltip>
    </TooltipTrigger>
  );
}
