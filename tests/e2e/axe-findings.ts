/** A1: what axe finds on every screen, in every theme and density. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser } from 'playwright-core';
import { type AppOptions, type AppUnderTest, launchApp } from './app-under-test.ts';
import { enterLine, entryLine, openDemo } from './page-parts.ts';
import { allScreens, type Furnished, furnish } from './screens.ts';

export interface AxeReport {
  /** Screens times themes times densities. */
  readonly views: number;
  /** One a rule and view, in words. */
  readonly findings: readonly string[];
}

const THEMES = ['light', 'dark'] as const;
const DENSITIES = ['bench', 'desk'] as const;

/** Violations of axe's rules, incomplete ones left out. */
export async function findingsOf(app: AppUnderTest, view: string): Promise<readonly string[]> {
  // Legacy mode looks into no other frames; the page has none, and needs no second page for that.
  const { violations } = await new AxeBuilder({ page: app.page }).setLegacyMode(true).analyze();
  return violations.map(
    ({ id, nodes }) => `${view}: ${id} at ${nodes.map(({ target }) => target.join(' ')).join(', ')}`,
  );
}

/** Reloads first, so that no dialog or drawer of the screen before is left. */
async function freshPage(app: AppUnderTest): Promise<void> {
  await app.page.goto('about:blank');
  await app.page.goto(app.host.address);
  await app.page.locator('#screen').waitFor();
}

async function inspect(app: AppUnderTest, furnished: Furnished): Promise<AxeReport> {
  const findings: string[] = [];
  let views = 0;
  for (const density of DENSITIES) {
    for (const theme of THEMES) {
      await app.backend.must('savePreferences', { preferences: { theme, density } });
      for (const screen of allScreens(furnished)) {
        await freshPage(app);
        await screen.show(app.page);
        await app.page.waitForTimeout(150);
        findings.push(...(await findingsOf(app, `${screen.name}, ${theme}, ${density}`)));
        views += 1;
      }
    }
  }
  return { views, findings };
}

/** A launch of its own for a screen that other data would hide. */
async function inspectAlone(
  browser: Browser,
  { name, options, show }: { name: string; options: AppOptions; show: (app: AppUnderTest) => Promise<void> },
): Promise<AxeReport> {
  const app = await launchApp({ browser, ...options });
  try {
    await show(app);
    return { views: 1, findings: await findingsOf(app, name) };
  } finally {
    await app.end();
  }
}

async function showFirstStart({ page }: AppUnderTest): Promise<void> {
  await page.getByRole('button', { name: 'Open the demo header' }).waitFor();
}

async function showCannotOpen({ page }: AppUnderTest): Promise<void> {
  await page.getByRole('heading', { level: 1 }).waitFor();
  await page.getByText('evenrun.sqlite').first().waitFor();
}

/** The header changes behind the page's back while the page's own step is on its way. */
async function showConflict(app: AppUnderTest): Promise<void> {
  const headerId = await openDemo(app);
  app.gate.hold('readRevision');
  const edit = { kind: 'setHeader' as const, set: { note: 'changed elsewhere' } };
  const steps = [{ action: 'do' as const, stepId: 'changed-elsewhere', edit }];
  await app.backend.must('commitSteps', { headerId, baseRevision: 0, steps });
  await entryLine(app.page).focus();
  await enterLine(app.page, '2 1/8');
  await app.page.getByRole('dialog', { name: 'This header was changed in another window' }).waitFor();
}

/** Bytes that are no database, where the database should be. */
function spoil(folder: string): void {
  writeFileSync(join(folder, 'evenrun.sqlite'), Buffer.alloc(8192, 'no database '));
}

export async function runAxe(): Promise<AxeReport> {
  let furnished: Furnished | null = null;
  const app = await launchApp({
    host: 'loopback',
    prepare: async (backend) => {
      furnished = await furnish(backend);
    },
  });
  try {
    if (furnished === null) throw new Error('nothing was furnished');
    const reports = [
      await inspect(app, furnished),
      await inspectAlone(app.browser, { name: 'first start', options: {}, show: showFirstStart }),
      await inspectAlone(app.browser, { name: 'conflict', options: {}, show: showConflict }),
      await inspectAlone(app.browser, { name: 'cannot open', options: { before: spoil }, show: showCannotOpen }),
    ];
    return {
      views: reports.reduce((sum, { views }) => sum + views, 0),
      findings: reports.flatMap(({ findings }) => findings),
    };
  } finally {
    await app.end();
  }
}
