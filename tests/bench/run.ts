/** `npm run bench`: prints how fast the program is and how few keys it takes; `--quick` for smaller samples. */

import { type MeasureRun, runMeasures } from '../measure.ts';
import { measureArchive } from './archive-speed.ts';
import { measureAxe } from './axe-count.ts';
import { measureChartSpeed } from './chart-speed.ts';
import { measureClearance } from './clearance-speed.ts';
import { measureMatchHeader } from './core-speed.ts';
import { measurePacking } from './cut-plan-packing.ts';
import { measureCutPlan } from './cut-plan-speed.ts';
import { measureDurableEdit } from './durable-edit.ts';
import { measureFinishedFiles } from './finished-files.ts';
import { measureJournal } from './journal-size.ts';
import { measureKeystrokes } from './keystrokes.ts';
import { measureBudget } from './moves-budget.ts';
import { measureAgainstHighs, measureMissedMoves, measureMoves } from './moves-speed.ts';
import { measureBanks, measureProposals } from './proposals-speed.ts';
import { measureSheet } from './sheet-speed.ts';
import { measureShelfScroll } from './shelf-scroll.ts';
import { measureShelf } from './shelf-speed.ts';
import { measureStartUp } from './start-up.ts';
import { measureViewRedraw } from './view-redraw.ts';

const RUNS: readonly MeasureRun[] = [
  { ids: ['P1', 'P2'], run: measureChartSpeed },
  { ids: ['P1b'], run: (size) => Promise.resolve(measureMatchHeader(size)) },
  { ids: ['P3', 'P3a', 'P3b', 'P3c', 'P3d'], run: async (size) => measureClearance(size) },
  { ids: ['P6'], run: measureDurableEdit },
  { ids: ['J1', 'J2', 'J2 open'], run: measureJournal },
  { ids: ['P7', 'P7 figures', 'P7 like', 'P7 open', 'P7 charts', 'P7 paint', 'P7b'], run: measureArchive },
  { ids: ['P8', 'P8 list'], run: measureStartUp },
  { ids: ['P9', 'P9 idle', 'P9 leaks'], run: measureViewRedraw },
  { ids: ['P10', 'P10 filter', 'P10 offers', 'P10 first'], run: measureShelf },
  { ids: ['P10 scroll'], run: measureShelfScroll },
  { ids: ['P11'], run: measureSheet },
  { ids: ['P7c', 'P7c file', 'P7c disk', 'P7c time'], run: measureFinishedFiles },
  { ids: ['K1'], run: measureKeystrokes },
  { ids: ['A1'], run: measureAxe },
  { ids: ['P4', 'P4b', 'P4s', 'P4t'], run: (size) => Promise.resolve(measureMoves(size)) },
  { ids: ['P4d', 'P4e'], run: measureBudget },
  { ids: ['P4c'], run: measureAgainstHighs },
  { ids: ['G3', 'G3 tail', 'G3 first'], run: (size) => Promise.resolve(measureProposals(size)) },
  { ids: ['G4', 'G4 placed', 'G4 eight'], run: (size) => Promise.resolve(measureBanks(size)) },
  { ids: ['P5', 'P5w'], run: measureCutPlan },
  { ids: ['C5'], run: measurePacking },
  { ids: ['C4'], run: (size) => Promise.resolve(measureMissedMoves(size)) },
];

await runMeasures(RUNS);
