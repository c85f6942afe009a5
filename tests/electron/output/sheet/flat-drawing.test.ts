/** Tubes seen flat on paper: every label can be read, and none is taken for something else. */

import { expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import { type FlatPoint, flatViews } from '../../../../core/sheet/flat-views.ts';
import type { PageText } from '../../../../electron/bridge/page-messages.ts';
import { openTypeface } from '../../../../electron/output/pages/typeface.ts';
import { drawnTubes } from '../../../../electron/output/sheet/flat-drawing.ts';
import { boxOf, FONTS } from './drawn-pages.ts';

test('no label of the demo header cuts through the end of its own tube, where a 3 would read as "3)"', () => {
  const scale = 12;
  const place = ({ xMm, yMm }: FlatPoint): readonly [number, number] => [100 + xMm / scale, 100 - yMm / scale];
  const paper = { place, scale, typeface: openTypeface(FONTS), labelMm: 3, within: [0, 300] as const };
  const { views } = flatViews(demoHeader('demo'));
  expect(views.map(({ name }) => name)).toEqual(['Front', 'Side', 'Top']);
  for (const { name, tubes } of views) {
    const labels = drawnTubes({ tubes }, paper).filter((mark): mark is PageText => mark.kind === 'text');
    expect(labels.map(({ text }) => text)).toEqual(tubes.map(({ label }) => label));
    for (const { label, pieces } of tubes) {
      const text = labels.find((one) => one.text === label);
      if (text === undefined) throw new Error(`${label} has no label`);
      const { left, right, top, bottom } = boxOf(text);
      const ends = pieces.flatMap((piece) => piece.ends.flatMap((end) => end.map(place)));
      const cut = ends.filter(([x, y]) => x > left - 0.3 && x < right + 0.3 && y > top - 0.3 && y < bottom + 0.3);
      expect(cut, `${name}, ${label}`).toEqual([]);
    }
  }
});
