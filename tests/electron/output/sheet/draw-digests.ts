/** Checksums of every file that a header can leave as; run by itself it prints those of the header in a file. */

import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Header } from '../../../../core/header/header.ts';
import type { StripsAsked } from '../../../../core/sheet/strips/make-strips.ts';
import { inches } from '../../../../core/units/length.ts';
import type { RequestOf } from '../../../../electron/bridge/contract.ts';
import { drawnFile } from '../../../../electron/output/drawing/drawing.ts';
import { readFontFiles } from '../../../../electron/output/pages/font-files.ts';

type Asked = RequestOf<'savePages'>;

export function everyFile(header: Header): readonly Asked[] {
  const sheet = { kind: 'sheet' as const, header, plans: [] };
  const strips = stripsOf(header).map((asked) => ({ kind: 'strips', header, strips: asked }) as const);
  const bench = { kind: 'flangeDown', primaryId: header.primaries[0]?.id ?? 'none' } as const;
  const fixture = { kind: 'fixture', header, bench, plan: 'scaled' } as const;
  return [
    { drawing: sheet, paper: 'letter', format: 'pdf' },
    { drawing: sheet, paper: 'a4', format: 'pdf' },
    { drawing: sheet, paper: 'a4', format: 'csv' },
    ...strips.flatMap((drawing) =>
      (['pdf', 'svg', 'dxfArcs', 'dxfChords'] as const).map((format) => ({ drawing, paper: 'a4' as const, format })),
    ),
    { drawing: fixture, paper: 'letter', format: 'pdf' },
    { drawing: { ...fixture, plan: 'trueSize' }, paper: 'a4', format: 'pdf' },
    { drawing: fixture, paper: 'a4', format: 'csv' },
  ];
}

/** One of each kind. */
export function stripsOf(header: Header): readonly StripsAsked[] {
  const primaryId = header.primaries[0]?.id ?? 'none';
  return [
    { kind: 'along', primaryId },
    { kind: 'clocking', primaryId },
    { kind: 'pies', primaryId },
    {
      kind: 'cope',
      runOd: inches(3),
      branchOd: inches(1.75),
      branchWall: inches(0.065),
      angleDeg: 45,
      offset: inches(0.25),
      cutTo: 'inside',
    },
    { kind: 'merge', tubes: 4, od: inches(1.75), leanDeg: 10, outletOd: inches(3) },
  ];
}

export async function drawDigests(header: Header): Promise<Readonly<Record<string, string>>> {
  const fonts = readFontFiles(fileURLToPath(import.meta.url));
  const digests: Record<string, string> = {};
  for (const [at, asked] of everyFile(header).entries()) {
    const drawn = await drawnFile(asked, fonts);
    if (!drawn.ok) throw new Error(JSON.stringify(drawn.problems));
    const name = `${at} ${asked.paper} ${asked.format}`;
    digests[name] = createHash('sha256').update(drawn.value.content).digest('hex');
  }
  return digests;
}

const [, script, file] = process.argv;
if (script === fileURLToPath(import.meta.url) && file !== undefined) {
  console.log(JSON.stringify(await drawDigests(JSON.parse(readFileSync(file, 'utf8')) as Header)));
}
