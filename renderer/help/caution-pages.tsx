/** Cautions: what can hurt in this work. The same stand on the build sheet, in short. */

import { Fragment } from 'react';
import { CAUTIONS, CAUTIONS_FIRST } from '../../core/index.ts';
import type { HelpPage } from './help-page.ts';

export const CAUTION_PAGE: HelpPage = {
  id: 'cautions',
  title: 'Work safely',
  body: (
    <>
      <p>{CAUTIONS_FIRST}</p>
      {CAUTIONS.map(({ title, text, source }) => (
        <Fragment key={title}>
          <h2>{title}</h2>
          <p>{text}</p>
          <p className="help-source">Source: {source}</p>
        </Fragment>
      ))}
    </>
  ),
};
