/** Everything about the shape of the header, a tab a job. */

import { type ComponentType, useState } from 'react';
import { Tab, TabList, TabPanel, Tabs } from 'react-aria-components';
import { BankPanel } from './banks/bank-panel.tsx';
import { ClearancePanel } from './clearance-panel.tsx';
import { ClockingPanel } from './clocking-panel.tsx';
import { ClosurePanel } from './closure-panel.tsx';
import { EndsPanel } from './ends/ends-panel.tsx';
import { ObstaclesPanel } from './obstacles/obstacles-panel.tsx';
import type { ShapeProps } from './shape-props.ts';
import './shape.css';
import { TablesPanel } from './tables/tables-panel.tsx';

const TABS: readonly { readonly id: string; readonly name: string; readonly Panel: ComponentType<ShapeProps> }[] = [
  { id: 'ends', name: 'Ports and inlets', Panel: EndsPanel },
  { id: 'clocking', name: 'Clocking', Panel: ClockingPanel },
  { id: 'closure', name: 'Closure', Panel: ClosurePanel },
  { id: 'clearance', name: 'Clearance', Panel: ClearancePanel },
  { id: 'obstacles', name: 'Obstacles', Panel: ObstaclesPanel },
  { id: 'tables', name: 'Tables', Panel: TablesPanel },
  { id: 'bank', name: 'Other bank', Panel: BankPanel },
];

export function ShapePanel(props: ShapeProps) {
  const [chosen, setChosen] = useState<string>('ends');
  return (
    <Tabs className="shape-panel" selectedKey={chosen} onSelectionChange={(key) => setChosen(String(key))}>
      <TabList className="shape-tabs" aria-label="Shape">
        {TABS.map(({ id, name }) => (
          <Tab key={id} id={id} className="shape-tab">
            {name}
          </Tab>
        ))}
      </TabList>
      {TABS.map(({ id, Panel }) => (
        <TabPanel key={id} id={id} className="shape-tab-panel">
          <Panel {...props} />
        </TabPanel>
      ))}
    </Tabs>
  );
}
