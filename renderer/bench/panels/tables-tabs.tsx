/** Tables of the header: every primary's figures, the bends of the one in hand as LRA and XYZ, and the other bank. */

import { type ReactNode, useState } from 'react';
import { Tab, TabList, TabPanel, Tabs } from 'react-aria-components';
import type { Header, MatchReport, StockItem } from '../../../core/index.ts';
import { FiguresTable } from '../../board/figures-table.tsx';
import { NeedsTable } from './needs-table.tsx';

interface Props {
  readonly header: Header;
  readonly report: MatchReport;
  readonly stock: readonly StockItem[] | null;
  readonly bend: ReactNode;
  /** Null: the header is finished, and no copy is put into it. */
  readonly bank: ReactNode | null;
}

export function TablesTabs({ header, report, stock, bend, bank }: Props) {
  const [chosen, setChosen] = useState('figures');
  const tabs: readonly { readonly id: string; readonly name: string; readonly content: ReactNode }[] = [
    { id: 'figures', name: 'Figures', content: <FiguresTable header={header} report={report} isShown /> },
    { id: 'bend', name: 'LRA and XYZ', content: bend },
    { id: 'needs', name: 'Needs', content: <NeedsTable header={header} stock={stock} /> },
    ...(bank === null ? [] : [{ id: 'bank', name: 'Other bank', content: bank }]),
  ];
  return (
    <Tabs className="panel-tabs" selectedKey={chosen} onSelectionChange={(key) => setChosen(String(key))}>
      <TabList className="panel-tab-list" aria-label="Tables">
        {tabs.map(({ id, name }) => (
          <Tab key={id} id={id} className="panel-tab">
            {name}
          </Tab>
        ))}
      </TabList>
      {tabs.map(({ id, content }) => (
        <TabPanel key={id} id={id}>
          {content}
        </TabPanel>
      ))}
    </Tabs>
  );
}
