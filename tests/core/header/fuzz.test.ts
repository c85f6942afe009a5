/** Nothing that is read throws, hangs, goes without a reason or leaves a trace, whatever it is given. */

import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { partsRows } from '../../../core/header/parts/parts-rows.ts';
import {
  csvText,
  demoHeader,
  describeProblem,
  type Problem,
  parseAngle,
  parseLength,
  parseQuickEntry,
  parseSignedLength,
  type Result,
  readHeader,
  readHeaderBytes,
  readPartsRows,
  readPastedPieces,
  writeHeader,
} from '../../../core/index.ts';
import { inches } from '../../../core/units/length.ts';
import { readCsv } from '../../../electron/output/csv.ts';
import { limitHere, onCpu } from '../../cpu-time.ts';
import { seededRandom } from '../../trust/seeded-random.ts';
import { mutantJson, mutantRows, mutantText, typedText } from './mutants.ts';

const { EVENRUN_LONG, EVENRUN_SEED = '20260501' } = process.env;
const CASES = EVENRUN_LONG === '1' ? 100_000 : 20_000;
const CASE_LIMIT_MS = 50;
/** Long runs take minutes. */
const TEST_LIMIT_MS = 900_000;
const SEED = Number(EVENRUN_SEED);

const prototypeKeys = Reflect.ownKeys(Object.prototype).length;

/** Time on the processor, of the fastest of three runs, so that a busy machine does not look like a hang. */
function withinLimit<Value>(run: () => Value, shown: string): Value {
  for (let attempt = 1; ; attempt += 1) {
    const { ms, value } = onCpu(run);
    if (ms <= CASE_LIMIT_MS) return value;
    if (attempt === 3) throw new Error(`${ms} ms for ${shown.slice(0, 200)}`);
  }
}

function checkProblem(problem: Problem, shown: string): void {
  const sentence = describeProblem(problem);
  const isPlain = sentence.length > 20 && sentence.length < 500 && /[.\u2026]$/.test(sentence);
  if (!isPlain || /undefined|\[object|Invalid input/.test(sentence.replace(/"[^"]*"?/g, ''))) {
    throw new Error(`"${sentence}" for ${shown.slice(0, 200)}`);
  }
  if ('path' in problem && !Array.isArray(problem.path)) throw new Error(`no path for ${shown.slice(0, 200)}`);
}

/** Runs `read` on every case; tells how many were refused. */
function refusals(count: number, make: () => string, read: (text: string) => readonly Problem[]): number {
  let refused = 0;
  for (let index = 0; index < count; index += 1) {
    const text = make();
    const problems = withinLimit(() => read(text), text);
    for (const problem of problems) checkProblem(problem, text);
    if (problems.length > 0) refused += 1;
  }
  return refused;
}

function problemsOf(result: Result<unknown, Problem>): readonly Problem[] {
  if (result.ok) return [];
  if (result.problems.length === 0) throw new Error('refused without a problem');
  return result.problems;
}

/** Small, so that many mutants fit into a second, but with something of every kind in it. */
function smallHeaderText(): string {
  const demo = demoHeader('demo');
  const [first, second] = demo.primaries.map((primary) => ({ ...primary, pieces: primary.pieces.slice(0, 2) }));
  const [collector] = demo.collectors;
  const [inlet, other] = collector?.inlets ?? [];
  if (!first || !second || !collector || !inlet || !other) throw new Error('the demo header has lost its parts');
  const at = { x: inches(1), y: inches(2), z: inches(3) };
  const pieCut = {
    kind: 'pieCut',
    id: 'pie',
    state: 'cut',
    locked: true,
    note: 'x',
    clr: inches(3),
    angleDeg: 90,
    clockingDeg: null,
    pies: 4,
  } as const;
  return writeHeader({
    ...demo,
    primaries: [
      { ...first, port: null, pieces: [...first.pieces, pieCut] },
      { ...second, tube: demo.settings.tube, pieces: [] },
    ],
    collectors: [{ ...collector, inlets: [inlet, { ...other, place: { kind: 'endOf', primaryId: first.id } }] }],
    settings: { ...demo.settings, target: { kind: 'primary', primaryId: second.id } },
    obstacles: [{ kind: 'plane', id: 'plane', name: 'floor', at, normal: { x: 0, y: 0, z: 1 } }],
  });
}

const newId = (() => {
  let count = 0;
  return () => {
    count += 1;
    return `n${count}`;
  };
})();

test(`${CASES} broken header files (seed ${SEED})`, { timeout: TEST_LIMIT_MS }, () => {
  const random = seededRandom(SEED);
  const text = smallHeaderText();
  const refused = refusals(
    CASES,
    () => mutantJson(text, random),
    (mutant) => {
      const problems = problemsOf(readHeader(mutant));
      if (problems.some((problem) => !('path' in problem))) throw new Error(`no path for ${mutant.slice(0, 200)}`);
      return problems;
    },
  );
  // A few mutants are still good headers (another name, say); if many were, the mutations would be too tame.
  expect(refused).toBeGreaterThan(CASES * 0.8);
  expect(Reflect.ownKeys(Object.prototype).length).toBe(prototypeKeys);
});

test('broken versions of the refused files', () => {
  const random = seededRandom(SEED + 1);
  const folder = new URL('../../../fixtures/refused/headers/', import.meta.url);
  const files = readdirSync(folder).map((name) => readFileSync(new URL(name, folder)));
  const small = files.filter((file) => file.length < 20_000);
  for (let index = 0; index < CASES / 4; index += 1) {
    const bytes = Uint8Array.from(small[index % small.length] ?? []);
    for (let flips = 0; flips < 4; flips += 1) bytes[Math.floor(random() * bytes.length)] = Math.floor(random() * 256);
    for (const problem of problemsOf(readHeaderBytes(bytes))) checkProblem(problem, `file ${index}`);
  }
  expect(({} as { polluted?: unknown }).polluted).toBe(undefined);
});

test(`${CASES} broken parts lists (seed ${SEED})`, { timeout: TEST_LIMIT_MS }, () => {
  const random = seededRandom(SEED + 2);
  const rows = partsRows(demoHeader('demo'), 'in').slice(0, 12);
  const csv = csvText(rows);
  const tabbed = rows.map((row) => row.slice(1).join('\t')).join('\n');
  let refused = 0;
  for (let index = 0; index < CASES; index += 1) {
    const problems = withinLimit(() => {
      if (index % 4 === 0)
        return readPastedPieces(mutantText(tabbed, random), { unit: 'in', clr: inches(3), newId }).refused.map(
          ({ problem }) => problem,
        );
      if (index % 4 === 1) {
        const read = readCsv(new TextEncoder().encode(mutantText(csv, random)));
        return read.ok
          ? readPartsRows(read.value, { unit: 'in', newId }).refused.map(({ problem }) => problem)
          : read.problems;
      }
      const parts = readPartsRows(mutantRows(rows, random), { unit: 'mm', newId });
      if (parts.refused.some(({ line }) => !(line >= 1))) throw new Error('a refused row without a line');
      return parts.refused.map(({ problem }) => problem);
    }, `list ${index}`);
    for (const problem of problems) checkProblem(problem, `list ${index}`);
    if (problems.length > 0) refused += 1;
  }
  expect(refused).toBeGreaterThan(CASES * 0.3);
  expect(Reflect.ownKeys(Object.prototype).length).toBe(prototypeKeys);
});

const context = { unit: 'in', clr: inches(3) } as const;
const readers: readonly ((text: string) => Result<unknown, Problem>)[] = [
  (text) => parseLength(text, 'in'),
  (text) => parseSignedLength(text, 'mm'),
  (text) => parseAngle(text),
  (text) => parseQuickEntry(text, context),
];

test(`${CASES} typed texts (seed ${SEED})`, { timeout: TEST_LIMIT_MS }, () => {
  const random = seededRandom(SEED + 3);
  for (const read of readers) {
    const refused = refusals(
      CASES / readers.length,
      () => typedText(random),
      (text) => problemsOf(read(text)),
    );
    expect(refused).toBeGreaterThan(CASES / readers.length / 2);
  }
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 40 }), (text) => {
      for (const read of readers) for (const problem of problemsOf(read(text))) checkProblem(problem, text);
    }),
    { numRuns: CASES / 4 },
  );
});

const repeated = (part: string) => part.repeat(Math.ceil(10_000 / part.length));
const tail = ['', '!', 'x', '/'];
const WORST: readonly string[] = [
  '1',
  ' ',
  '\t',
  '-',
  '+',
  '1/',
  '1 ',
  ' 1/2',
  '-1',
  "1'",
  '.',
  '1.',
  '\u00bd',
  'b',
  'b1',
  'b90-',
  'x',
  'p90x',
  'r',
  ';',
  '=',
  '"',
  '""',
  '"\t',
  '\n',
  '"\n',
  '{',
  '[',
  '{"":',
  '\\',
  '"\\',
  ',',
  '0',
  'deg',
  '\u00b0',
  '"x ',
  '\u0301\u0316',
]
  .flatMap((part) => tail.map((end) => repeated(part) + end))
  .concat(
    repeated('1').replace(/^/, 'b'),
    `b${repeated(' ')}x`,
    `p90${repeated(' ')}x5`,
    `"${repeated('""')}x`,
    `${repeated('"x').slice(0, 5000)}${' '.repeat(5000)}\t`,
  );

test('the worst strings of 10,000 characters are read in under 5 ms', () => {
  const all = [
    ...readers,
    (text: string) => readHeader(text),
    (text: string) => readPastedPieces(text, { ...context, newId }),
    (text: string) =>
      readPartsRows(
        [
          ['primary', 'length', 'angle', 'clr', 'note'],
          [text, text],
          ['1', text],
          ['1', '', text, text, text],
        ],
        { unit: 'in', newId },
      ),
  ];
  const limitMs = limitHere(5);
  for (const text of WORST) {
    for (const [index, read] of all.entries()) {
      // The code's own time is the least of several: caches that other programs have emptied lengthen the others.
      // A busy memory lengthens all of them, and with them a bare walk that makes as many small lists.
      let leastMs = Number.POSITIVE_INFINITY;
      let bareMs = Number.POSITIVE_INFINITY;
      const allowedMs = () => (Number.isFinite(bareMs) ? Math.max(limitMs, 20 * bareMs) : limitMs);
      for (let turn = 0; turn < 300 && leastMs >= allowedMs(); turn += 1) {
        leastMs = Math.min(leastMs, onCpu(() => read(text)).ms);
        if (leastMs >= limitMs) bareMs = Math.min(bareMs, onCpu(() => Array.from(text, (sign) => [sign])).ms);
      }
      expect(leastMs, `reader ${index}, ${JSON.stringify(text.slice(0, 12))}`).toBeLessThan(allowedMs());
    }
  }
});
