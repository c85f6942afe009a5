/** A text extractor reads the PDFs in the order in which a person does. */

import { expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import { drawnFile } from '../../../../electron/output/drawing/drawing.ts';
import { FONTS } from './drawn-pages.ts';
import { readPdfPages } from './read-back.ts';

test.each(['a4', 'letter'] as const)('the build sheet on %s', async (paper) => {
  const drawing = { kind: 'sheet' as const, header: demoHeader('demo'), plans: [] };
  const file = await drawnFile({ drawing, paper, format: 'pdf' }, FONTS);
  if (!file.ok) throw new Error('was refused');
  const pages = await readPdfPages(file.value.content as Uint8Array);
  const words = pages.map((page) => page.words).join(' ');
  const order = [
    'Hill-climb four',
    'Target',
    'Primary Off the target',
    'Front: outboard to the right',
    'Scale 1:',
    'Outside arc: along the outside of the bend',
    'Primary 1:',
    '# Piece Size',
    'Primary 2:',
    'Primary 3:',
    'Primary 4:',
    'Cautions',
    'Emissions and noise law',
  ];
  let from = 0;
  for (const text of order) {
    const at = words.indexOf(text, from);
    expect(at, text).toBeGreaterThanOrEqual(from);
    from = at;
  }
  for (const [at, page] of pages.entries()) expect(page.words).toContain(`Page ${at + 1} of ${pages.length}`);
});

test('letters beyond Latin-1 and minus signs come back as they are', async () => {
  const header = { ...demoHeader('demo'), name: 'Żółw β −3/16' };
  const file = await drawnFile({ drawing: { kind: 'sheet', header, plans: [] }, paper: 'a4', format: 'pdf' }, FONTS);
  if (!file.ok) throw new Error('was refused');
  const [page] = await readPdfPages(file.value.content as Uint8Array);
  expect(page?.words.replaceAll(' ', '')).toContain('Żółw');
  expect(page?.words).toContain('−3/16');
});
