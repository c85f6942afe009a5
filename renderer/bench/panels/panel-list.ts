/** The panels of the bench, in the order of the rail: one job each. */

import {
  Activity,
  CircleDot,
  Image,
  type LucideIcon,
  RotateCw,
  Ruler,
  Scaling,
  SlidersHorizontal,
  Table2,
  TrafficCone,
  Wrench,
} from 'lucide-react';

export type PanelId =
  | 'moves'
  | 'ports'
  | 'clocking'
  | 'fit'
  | 'obstacles'
  | 'asBuilt'
  | 'pulses'
  | 'pictures'
  | 'tables'
  | 'settings';

export interface PanelEntry {
  readonly id: PanelId;
  /** Under the icon on the rail. */
  readonly word: string;
  /** Over the open panel; begins with the word, so that whoever speaks to the program says what is seen. */
  readonly title: string;
  readonly Icon: LucideIcon;
  /** Shown for a finished header as well, because it changes nothing. */
  readonly isForLooking: boolean;
}

export const PANELS: readonly PanelEntry[] = [
  { id: 'moves', word: 'Moves', title: 'Moves', Icon: Wrench, isForLooking: false },
  { id: 'ports', word: 'Ports', title: 'Ports and inlets', Icon: CircleDot, isForLooking: false },
  { id: 'clocking', word: 'Clocking', title: 'Clocking', Icon: RotateCw, isForLooking: false },
  { id: 'fit', word: 'Fit', title: 'Fit: clearance and closure', Icon: Scaling, isForLooking: true },
  { id: 'obstacles', word: 'Obstacles', title: 'Obstacles', Icon: TrafficCone, isForLooking: false },
  { id: 'asBuilt', word: 'As-built', title: 'As-built check', Icon: Ruler, isForLooking: true },
  { id: 'pulses', word: 'Pulses', title: 'Pulses at the collectors', Icon: Activity, isForLooking: true },
  { id: 'pictures', word: 'Pictures', title: 'Pictures', Icon: Image, isForLooking: true },
  { id: 'tables', word: 'Tables', title: 'Tables and other bank', Icon: Table2, isForLooking: true },
  { id: 'settings', word: 'Settings', title: 'Settings', Icon: SlidersHorizontal, isForLooking: false },
];

/** Those that can be opened; of a finished header only those that show and change nothing. */
export function panelsFor(isFrozen: boolean): readonly PanelEntry[] {
  return PANELS.filter(({ isForLooking }) => !isFrozen || isForLooking);
}

/** The place on the page where every panel opens. */
export const PANEL_FRAME_ID = 'bench-panel';

/** The button on the rail that opens the panel, and that the focus goes back to. */
export function railButtonId(panel: PanelId): string {
  return `rail-${panel}`;
}
