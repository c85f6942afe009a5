/** The unit that lengths are shown in: chosen, or switched in one step. */

import { type LengthStyle, setSettingsEdit } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { takesNoSteps } from '../../session/session-state.ts';

const USUAL_INCHES: LengthStyle = { kind: 'fraction', per: 16 };
const USUAL_MM: LengthStyle = { kind: 'mm', places: 1 };

/** Inches for millimetres and the other way round, at the usual fineness. */
export function otherUnit(style: LengthStyle): LengthStyle {
  return style.kind === 'mm' ? USUAL_INCHES : USUAL_MM;
}

/** The unit is part of the header; of one that takes no steps it changes only how the header is shown. */
export function showLengthsIn(session: HeaderSession, display: LengthStyle): void {
  if (takesNoSteps(session.getState())) session.showIn(display);
  else session.apply(setSettingsEdit({ display }));
}
