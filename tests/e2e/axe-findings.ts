/** A1: what axe finds in a page, and on every screen in every theme and density. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { showPreferences } from '../../renderer/app/preferences/preferences.ts';
import { launchBrowser } from '../browser.ts';
import { type AppOptions, type AppUnderTest, launchApp } from './app-under-test.ts';
import { enterLine, entryLine, openDemo, settled } from './page-parts.ts';
import { type Furnished, furnish, SCREENS, type ScreenUnderTest } from './screens.ts';

export interface AxeReport {
  /** Screens times themes times densities. */
  readonly views: number;
  /** One a rule and view, in words. */
  readonly findings: readonly string[];
}

export interface Look {
  readonly theme: 'light' | 'dark';
  readonly density: 'bench' | 'desk';
}

export const LOOKS: readonly Look[] = (['bench', 'desk'] as const).flatMap((density) =>
  (['light', 'dark'] as const).map((theme) => ({ theme, density })),
);

/** WCAG 2.2, criterion 2.5.5. */
const LEAST_FOR_GLOVES_PX = 44;

/** Rules that axe runs by default in the version of this test; fewer would mean that less is looked at. */
const LEAST_RULES = 90;

/** Violations of axe's rules, incomplete ones left out. */
export async function findingsOf(page: Page, view: string): Promise<readonly string[]> {
  await settled(page);
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe.source);
  const { rules, violations } = await page.evaluate(async () => {
    const inPage = (globalThis as unknown as { readonly axe: typeof axe }).axe;
    // All rules are run; of those without a violation, nothing is described at length.
    const found = await inPage.run(document, { resultTypes: ['violations'] });
    const ended = [found.violations, found.passes, found.incomplete, found.inapplicable].flat();
    return {
      rules: new Set(ended.map(({ id }) => id)).size,
      violations: found.violations.map(({ id, nodes }) => ({
        id,
        targets: nodes.map(({ target }) => target.join(' ')),
      })),
    };
  });
  if (rules < LEAST_RULES) throw new Error(`only ${rules} of axe's rules were run on ${view}`);
  return violations.map(({ id, targets }) => `${view}: ${id} at ${targets.join(', ')}`);
}

/** Puts on a theme and a density as the program itself does when they are chosen, and looks whether they are there. */
export async function putOn(page: Page, look: Look): Promise<void> {
  await page.evaluate(showPreferences, look);
  const seen = await page.evaluate((leastForGlovesPx) => {
    const { backgroundColor, colorScheme } = getComputedStyle(document.documentElement);
    const probe = document.body.appendChild(document.createElement('div'));
    probe.style.height = 'var(--target-size)';
    const { height } = probe.getBoundingClientRect();
    probe.remove();
    const [red = Number.NaN] = (backgroundColor.match(/[\d.]+/g) ?? []).map(Number);
    return { theme: red < 128 ? 'dark' : 'light', colorScheme, density: height < leastForGlovesPx ? 'desk' : 'bench' };
  }, LEAST_FOR_GLOVES_PX);
  const isThere = seen.theme === look.theme && seen.colorScheme === look.theme && seen.density === look.density;
  if (!isThere) throw new Error(`${look.theme}, ${look.density} did not come: ${JSON.stringify(seen)}`);
}

/** What axe finds in the page as it stands, in every theme and density. */
export async function findingsInEveryLook(page: Page, name: string): Promise<AxeReport> {
  const findings: string[] = [];
  for (const look of LOOKS) {
    await putOn(page, look);
    findings.push(...(await findingsOf(page, `${name}, ${look.theme}, ${look.density}`)));
  }
  return { views: LOOKS.length, findings };
}

export interface FurnishedApp {
  readonly app: AppUnderTest;
  readonly furnished: Furnished;
}

export async function launchFurnished(browser: Browser): Promise<FurnishedApp> {
  let furnished: Furnished | null = null;
  const prepare: AppOptions['prepare'] = async (backend) => {
    furnished = await furnish(backend);
  };
  const app = await launchApp({ host: 'loopback', browser, prepare });
  if (furnished === null) throw new Error('nothing was furnished');
  return { app, furnished };
}

/** The screen in a page loaded for it, so that no dialog or panel of the screen before is left. */
export async function inspectScreen({ app, furnished }: FurnishedApp, screen: ScreenUnderTest): Promise<AxeReport> {
  await app.page.goto('about:blank');
  await app.page.goto(app.host.address);
  await app.page.locator('#screen').waitFor();
  await screen.show(app.page, furnished);
  return await findingsInEveryLook(app.page, screen.name);
}

/** A screen that wants a program of its own, because other data would hide it. */
export interface LoneScreen {
  readonly name: string;
  readonly options?: AppOptions;
  readonly show: (app: AppUnderTest) => Promise<void>;
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

async function showCannotOpen({ page }: AppUnderTest): Promise<void> {
  await page.getByRole('heading', { level: 1 }).waitFor();
  await page.getByText('evenrun.sqlite').first().waitFor();
}

/** Bytes that are no database, where the database should be. */
function spoil(folder: string): void {
  writeFileSync(join(folder, 'evenrun.sqlite'), Buffer.alloc(8192, 'no database '));
}

export const LONE_SCREENS: readonly LoneScreen[] = [
  { name: 'first start', show: ({ page }) => page.getByRole('button', { name: 'Open the demo header' }).waitFor() },
  { name: 'conflict', show: showConflict },
  { name: 'cannot open', options: { before: spoil }, show: showCannotOpen },
];

export async function inspectAlone(browser: Browser, { name, options, show }: LoneScreen): Promise<AxeReport> {
  const app = await launchApp({ host: 'loopback', browser, ...options });
  try {
    await show(app);
    return await findingsInEveryLook(app.page, name);
  } finally {
    await app.end();
  }
}

/** All of it in one go, for the measure. */
export async function runAxe(): Promise<AxeReport> {
  const browser = await launchBrowser();
  const reports: AxeReport[] = [];
  try {
    const furnishedApp = await launchFurnished(browser);
    for (const screen of SCREENS) reports.push(await inspectScreen(furnishedApp, screen));
    await furnishedApp.app.end();
    for (const screen of LONE_SCREENS) reports.push(await inspectAlone(browser, screen));
  } finally {
    await browser.close();
  }
  return {
    views: reports.reduce((sum, { views }) => sum + views, 0),
    findings: reports.flatMap(({ findings }) => findings),
  };
}
