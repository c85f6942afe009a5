/** Buttons: words on a target large enough for a glove. */

import type { ReactNode } from 'react';
import { Button as AriaButton, type ButtonProps } from 'react-aria-components';

interface Props extends Omit<ButtonProps, 'className' | 'style' | 'children'> {
  readonly children: ReactNode;
  /** `main`: the one thing to do here. `plain`: the default. `quiet`: no outline until pointed at. */
  readonly look?: 'main' | 'plain' | 'quiet';
}

export function Button({ look = 'plain', children, ...rest }: Props) {
  return (
    <AriaButton {...rest} className={`button button-${look}`}>
      {children}
    </AriaButton>
  );
}
