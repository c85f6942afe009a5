/** Whatever leaves the program of a header that is not sound says so: every page, and the head of every file. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import { newHeader } from '../../../../core/header/new-header.ts';
import type { RequestOf } from '../../../../electron/bridge/contract.ts';
import type { Fault } from '../../../../electron/bridge/page-messages.ts';
import { drawnFile } from '../../../../electron/output/drawing/drawing.ts';
import { bigHeader } from '../../../generators/headers.ts';
import { everyFile } from './draw-digests.ts';
import { expectNoFaults, FONTS, pagesOf } from './drawn-pages.ts';
import { readDxf, readPdfPages } from './read-back.ts';

const MARKS: Readonly<Record<Fault, string>> = {
  altered:
    'DO NOT BUILD FROM THIS. The header is not as it was finished: it was damaged on disk, or altered by something other than Evenrun.',
  damaged: 'TAKE CARE. The header is damaged on disk: the last steps made to it are missing here.',
};
const FAULTS = Object.keys(MARKS) as readonly Fault[];

const demo = demoHeader('demo');
const close = (text: string) => text.replaceAll(/\s/g, '');

async function contentOf(asked: RequestOf<'savePages'>): Promise<string | Uint8Array> {
  const file = await drawnFile(asked, FONTS);
  if (!file.ok) throw new Error(JSON.stringify(file.problems));
  return file.value.content;
}

/** The parts of a file that must each carry the mark, as text. */
async function textsIn(asked: RequestOf<'savePages'>): Promise<readonly string[]> {
  const content = await contentOf(asked);
  if (asked.format === 'pdf') return (await readPdfPages(content as Uint8Array)).map(({ words }) => words);
  return [String(content)];
}

describe.each(FAULTS)('%s', (fault) => {
  test.each(everyFile(demo).map((asked) => [`${asked.drawing.kind} ${asked.format} ${asked.paper}`, asked] as const))(
    '%s carries the mark, and without the fault it does not',
    async (_, asked) => {
      const drawing = { ...asked.drawing, fault };
      const sentences = MARKS[fault].split(/(?<=[.:]) /).map(close);
      for (const text of await textsIn({ ...asked, drawing }))
        for (const sentence of sentences) expect(close(text)).toContain(sentence);
      for (const text of await textsIn(asked)) expect(close(text)).not.toContain(sentences[0]);
    },
  );

  test.each(['letter', 'a4'] as const)('on %s every page has all of it, on no other word', (paper) => {
    const headers = [demo, bigHeader(8, 20), newHeader({ id: 'none', name: 'Nothing yet' })];
    for (const header of headers) {
      const pages = pagesOf({ kind: 'sheet', header, plans: [], fault }, paper);
      expectNoFaults(pages);
      for (const { marks } of pages) {
        const words = marks.map((mark) => (mark.kind === 'text' ? mark.text : '')).join(' ');
        expect(close(words)).toContain(close(MARKS[fault]));
      }
    }
  });

  test('a list for spreadsheets begins with it, and has the same rows after it', async () => {
    for (const asked of everyFile(demo).filter(({ format }) => format === 'csv')) {
      const marked = String(await contentOf({ ...asked, drawing: { ...asked.drawing, fault } }));
      const sound = String(await contentOf(asked));
      expect(marked.replace(/^\ufeff?"?/, '').startsWith(MARKS[fault])).toBe(true);
      const rows = (text: string) => text.split('\r\n');
      expect(rows(marked).slice(1)).toEqual(rows(sound.replace('\ufeff', '')));
      expect(rows(marked)[0]?.match(/,/g)?.length).toBeGreaterThanOrEqual(rows(sound)[0]?.match(/,/g)?.length ?? 0);
    }
  });
});

test('in SVG and DXF the mark is words alone: what is cut is the same', async () => {
  const strips = everyFile(demo).filter(({ format }) => format === 'dxfChords');
  expect(strips.length).toBeGreaterThan(3);
  for (const asked of strips) {
    const sound = readDxf(String(await contentOf(asked)));
    const marked = readDxf(String(await contentOf({ ...asked, drawing: { ...asked.drawing, fault: 'altered' } })));
    expect(marked.lines).toHaveLength(sound.lines.length);
    const spans = (lines: typeof sound.lines) =>
      lines.map((line) =>
        line.map(([x, y]) => [x - (line[0]?.[0] ?? 0), y - (line[0]?.[1] ?? 0)].map((mm) => mm.toFixed(3))),
      );
    expect(spans(marked.lines)).toEqual(spans(sound.lines));
  }
});
