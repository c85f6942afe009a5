/** What an empty program teaches: what it is for, what to do first, and the demo one step away. */

import type { ReactNode } from 'react';
import { demoHeader } from '../../core/index.ts';
import { StripPreview, stripsOf } from '../ui/strip-preview.tsx';

const demoStrips = stripsOf(demoHeader('preview'));

export function FirstStart({ children }: { readonly children: ReactNode }) {
  return (
    <>
      <h1>Every primary the same length</h1>
      <div className="first-start">
        <div className="prose">
          <p>
            Type each piece as you tack it. Evenrun adds up the centreline of every primary, shows which one is short or
            long against the target, and by how much.
          </p>
          <p className="muted">
            Start a header of your own below, or open the demo to see one half built. Every entry is saved as you make
            it.
          </p>
        </div>
        <StripPreview primaries={demoStrips} title="The demo header: one strip for each primary, bends hatched" />
      </div>
      {children}
    </>
  );
}
