/** Help: one short page a job, in the program, without a network. */

import { KeysTables } from '../commands/keys-list.tsx';
import { writeScreen } from '../ui/screen.ts';
import { AS_BUILT } from './as-built-page.tsx';
import { BENCH_PAGES } from './bench-pages.tsx';
import { CAUTION_PAGE } from './caution-pages.tsx';
import type { HelpPage } from './help-page.ts';
import { KEEPING_PAGES } from './keeping-pages.tsx';
import { SHAPE } from './shape-page.tsx';
import { SHEETS } from './sheets-page.tsx';
import './help.css';

interface Props {
  /** Empty: the first page. */
  readonly page: string;
  readonly version: string;
  readonly dataFolder: string;
}

function aboutPage(version: string, dataFolder: string): HelpPage {
  return {
    id: 'about',
    title: 'About Evenrun',
    body: (
      <>
        <p>Evenrun {version}. It needs no network and sends nothing anywhere.</p>
        <p>Your headers, shelf and backups are in {dataFolder}. Removing the program leaves them there.</p>
        <p>
          The typeface is Atkinson Hyperlegible Next, with Noto Sans for letters and signs that it lacks; both are under
          the SIL Open Font License 1.1. Evenrun itself is under the MIT licence.
        </p>
      </>
    ),
  };
}

const KEYS: HelpPage = { id: 'keys', title: 'All keys', body: <KeysTables headings="h2" /> };

export function helpPages(version: string, dataFolder: string): readonly HelpPage[] {
  return [
    ...BENCH_PAGES,
    SHAPE,
    SHEETS,
    AS_BUILT,
    ...KEEPING_PAGES,
    CAUTION_PAGE,
    KEYS,
    aboutPage(version, dataFolder),
  ];
}

export function HelpScreen({ page, version, dataFolder }: Props) {
  const pages = helpPages(version, dataFolder);
  const shown = pages.find((candidate) => candidate.id === page) ?? pages[0];
  if (shown === undefined) return null;
  return (
    <main className="page help" id="screen">
      <nav aria-label="Pages of help">
        <ul className="plain-list help-list">
          {pages.map((candidate) => (
            <li key={candidate.id}>
              <a
                href={writeScreen({ kind: 'help', page: candidate.id })}
                aria-current={candidate === shown ? 'page' : undefined}
              >
                {candidate.title}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <article className={shown.id === 'keys' ? 'help-wide' : 'prose'}>
        <h1>{shown.title}</h1>
        {shown.body}
      </article>
    </main>
  );
}
