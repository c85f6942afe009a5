/** Tables of the header: every primary's figures, the bends of the one in hand as LRA and XYZ, and the other bank. */

import { type ReactNode, useState } from 'react';
import { Tab, TabList, TabPanel, Tabs } from 'react-aria-components';
import type { Header, MatchReport } from '../../../core/index.ts';
import { FiguresTable } from '../../board/figures-table.tsx';

interface Props {
  readonly header: Header;
  readonly report: MatchReport;
  readonly bend: ReactNode;
  /** Null: the header is finished, and no copy is put into it. */
  readonly bank: ReactNode | null;
}

export function TablesTabs({ header, report, bend, bank }: Props) {
  const [chosen, setChosen] = useState('figures');
  const tabs: readonly { readonly id: string; readonly name: string; readonly content: ReactNode }[] = [
    { id: 'figures', name: 'Figures', content: <FiguresTable header={header} report={report} isShown /> },
    { id: 'bend', name: 'LRA and XYZ', content: bend },
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
