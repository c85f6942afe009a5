/** The panels about the shape of the header, by name: what the bench opens in its panel, fetched when first asked for. */

import type { ComponentType } from 'react';
import { BankPanel } from './banks/bank-panel.tsx';
import { ClearancePanel } from './clearance-panel.tsx';
import { ClockingPanel } from './clocking-panel.tsx';
import { ClosurePanel } from './closure-panel.tsx';
import { EndsPanel } from './ends/ends-panel.tsx';
import { ObstaclesPanel } from './obstacles/obstacles-panel.tsx';
import type { ShapePanelId, ShapeProps } from './shape-props.ts';
import './shape.css';
import { TablesPanel } from './tables/tables-panel.tsx';

const PANELS: Readonly<Record<ShapePanelId, ComponentType<ShapeProps>>> = {
  ends: EndsPanel,
  clocking: ClockingPanel,
  closure: ClosurePanel,
  clearance: ClearancePanel,
  obstacles: ObstaclesPanel,
  tables: TablesPanel,
  bank: BankPanel,
};

export function ShapePanel({ id, ...props }: ShapeProps & { readonly id: ShapePanelId }) {
  const Panel = PANELS[id];
  return <Panel {...props} />;
}
