/** Edits on the header itself: its name, its settings, and finishing it. */

import { closureAlong } from '../header/default-closure.ts';
import type { Engine } from '../header/engine.ts';
import type { Header, Settings, Tube } from '../header/header.ts';
import type { ShopTolerances } from '../header/measured.ts';
import type { Edit } from './edit.ts';

export function renameHeaderEdit(name: string): Edit {
  return { kind: 'setHeader', set: { name } };
}

export function setNoteEdit(note: string): Edit {
  return { kind: 'setHeader', set: { note } };
}

/** Sets the settings given; all others stay. */
export function setSettingsEdit(set: Partial<Settings>): Edit {
  return { kind: 'setSettings', set };
}

/** Sets what is given of the tube that every primary has unless it says otherwise. */
export function setTubeEdit({ settings }: Header, change: Partial<Tube>): Edit {
  return setSettingsEdit({ tube: { ...settings.tube, ...change } });
}

/** Sets one side of the tolerance, or both; a closure that nobody has typed goes along (see `defaultClosure`). */
export function setToleranceEdit(header: Header, change: Partial<Settings['tolerance']>): Edit {
  const tolerance = { ...header.settings.tolerance, ...change };
  return setSettingsEdit({ tolerance, ...closureAlong(header, { tolerance }) });
}

/** Sets the gap or the tilt within which an end counts as closed. */
export function setClosureEdit({ settings }: Header, change: Partial<Settings['closure']>): Edit {
  return setSettingsEdit({ closure: { ...settings.closure, ...change } });
}

/** How exactly the shop works; null: as if it had not said. */
export function setTolerancesEdit(tolerances: ShopTolerances | null): Edit {
  return { kind: 'setTolerances', tolerances };
}

/** The engine that the header is for; null: as if nobody had said. */
export function setEngineEdit(engine: Engine | null): Edit {
  return { kind: 'setEngine', engine };
}

/** Freezes the header; work goes on in a copy. */
export function finishHeaderEdit(): Edit {
  return { kind: 'finishHeader' };
}
