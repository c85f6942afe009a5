/** The file format: what is written is read again, and nothing is taken on trust. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { jsonProblem } from '../../../../core/header/file/look-over-json.ts';
import {
  checkHeader,
  demoHeader,
  describeProblem,
  type Header,
  type HeaderProblem,
  type Piece,
  type Result,
  readHeader,
  readHeaderBytes,
  writeHeader,
} from '../../../../core/index.ts';
import { inches } from '../../../../core/units/length.ts';
import { headerArbitrary } from '../../../generators/headers.ts';

const { EVENRUN_LONG } = process.env;
const RUNS = EVENRUN_LONG === '1' ? 20_000 : 1_000;
const demo = demoHeader('demo');
const text = writeHeader(demo);
const bytes = (of: string) => new TextEncoder().encode(of);

const firstProblem = (result: Result<Header, HeaderProblem>) => (result.ok ? null : (result.problems[0] ?? null));

describe('round trip', () => {
  test('a header that is written and read is the same', { timeout: 900_000 }, () => {
    fc.assert(
      fc.property(headerArbitrary(), (header) => {
        expect(checkHeader(header)).toEqual({ ok: true, value: header });
        const written = writeHeader(header);
        expect(readHeader(written)).toEqual({ ok: true, value: header });
        expect(readHeaderBytes(bytes(written))).toEqual({ ok: true, value: header });
      }),
      { numRuns: RUNS },
    );
  });

  test('the largest header without notes, and one with the longest notes, are read back', { timeout: 120_000 }, () => {
    const common = { state: 'tacked', locked: false } as const;
    const turn = { clr: inches(1 / 3), angleDeg: 100 / 3, clockingDeg: -100 / 3, pies: 90 };
    const bend = (id: string): Piece => ({ kind: 'pieCut', id, ...common, ...turn, note: '' });
    const note = '\u20ac"\n\\'.repeat(500);
    const straight = (id: string): Piece => ({ kind: 'straight', id, ...common, length: inches(0.1 + 0.2), note });
    const withPieces = (count: number, pieceOf: (id: string) => Piece): Header => ({
      ...demo,
      collectors: [],
      settings: { ...demo.settings, target: { kind: 'longest' } },
      primaries: Array.from({ length: count }, (_, at) => ({
        id: `primary-${at}`,
        name: '\u20ac'.repeat(120),
        tube: null,
        port: null,
        inletId: null,
        pieces: Array.from({ length: 500 }, (_none, place) => pieceOf(`${at}-${place}`.padEnd(24, 'x'))),
      })),
    });
    for (const header of [withPieces(64, bend), withPieces(2, straight)]) {
      const written = writeHeader(header);
      const read = readHeaderBytes(bytes(written));
      expect(read.ok ? [] : read.problems).toEqual([]);
      expect(read.ok && writeHeader(read.value) === written).toBe(true);
    }
  });

  test('equal headers give equal text, whatever the order of their keys', () => {
    const turned = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(turned);
      if (typeof value !== 'object' || value === null) return value;
      return Object.fromEntries(
        Object.entries(value)
          .reverse()
          .map(([key, inner]) => [key, turned(inner)]),
      );
    };
    expect(writeHeader(turned(demo) as Header)).toBe(text);
  });

  test('the text names format and version first, is indented by two and ends its last line', () => {
    expect(
      text.startsWith('{\n  "format": "evenrun-header",\n  "version": 1,\n  "header": {\n    "id": "demo",\n'),
    ).toBe(true);
    expect(text.endsWith('}\n')).toBe(true);
  });

  test('a byte order mark and Windows line ends do no harm', () => {
    expect(readHeader(`\ufeff${text.replaceAll('\n', '\r\n')}`)).toEqual({ ok: true, value: demo });
    expect(readHeaderBytes(bytes(`\ufeff${text}`))).toEqual({ ok: true, value: demo });
  });

  test('text is read in NFC and negative zero as zero', () => {
    const odd = text
      .replace('Hill-climb four', 'Kru\u0308mmer')
      .replace('"x": 0,', '"x": -0,')
      .replace('"clockingDeg": 0', '"clockingDeg": -0.0');
    const read = readHeader(odd);
    expect(read.ok && read.value.name).toBe('Kr\u00fcmmer');
    expect(read.ok && JSON.stringify(read.value)).not.toContain('-0');
    expect(read.ok && Object.is(read.value.primaries[0]?.port?.direction.x, 0)).toBe(true);
  });
});

describe('guards', () => {
  test('10 MiB is the limit, of text and of bytes', () => {
    const limit = 10 * 1024 * 1024;
    const padded = text + ' '.repeat(limit - text.length);
    expect(readHeader(padded).ok).toBe(true);
    expect(firstProblem(readHeader(`${padded} `))).toMatchObject({ reason: 'tooLarge' });
    expect(firstProblem(readHeaderBytes(new Uint8Array(limit + 1)))).toMatchObject({ reason: 'tooLarge' });
  });

  test('32 levels are read and 33 are not, and the path says where', () => {
    const nested = (levels: number) => readHeader(`${'[1,'.repeat(levels - 1)}[]${']'.repeat(levels - 1)}`);
    expect(firstProblem(nested(32))).toMatchObject({ reason: 'notAHeader' });
    expect(firstProblem(nested(33))).toMatchObject({ reason: 'tooDeep', path: Array.from({ length: 32 }, () => 1) });
  });

  test.each([
    ['primaries', 64],
    ['collectors', 64],
    ['obstacles', 200],
    ['anything', 500],
  ])('a list of %s is looked at no further than its limit', (name, limit) => {
    const file = (entries: number) => {
      const list = `[${Array(entries).fill('0').join(',')}]`;
      return readHeader(`{"format":"evenrun-header","version":1,"header":{"${name}":${list}}}`);
    };
    expect(firstProblem(file(limit + 1))).toEqual({ kind: 'tooMany', path: [name], limit });
    expect(firstProblem(file(limit))).not.toMatchObject({ kind: 'tooMany' });
  });

  test('a text of millions of accents is refused for its length, without composing it', () => {
    // A row of accents in two classes, which have to be sorted: time by the square of their number.
    const name = '\u0301\u0316'.repeat(1_000_000);
    const noted = text.replace('Hill-climb four', name);
    expect(firstProblem(readHeader(noted))).toMatchObject({ path: ['name'], expected: 'at most 120 characters' });
  });

  test('a text that fits only once it is composed is taken', () => {
    // U+1F82 in four parts: alpha, two marks above it and the iota below.
    const decomposed = '\u1f82'.normalize('NFD').repeat(120);
    expect(decomposed.length).toBe(480);
    const read = readHeader(text.replace('Hill-climb four', decomposed));
    expect(read.ok && read.value.name).toBe('\u1f82'.repeat(120));
  });

  test('a key that is there twice is found, at its path, also when it is spelled with an escape', () => {
    const twice = text.replace('"clockingDeg": 60', '"clockingDeg": 60, "clocking\\u0044eg": 90');
    const path = ['primaries', 0, 'pieces', 1, 'clockingDeg'];
    expect(firstProblem(readHeader(twice))).toMatchObject({ reason: 'duplicateKey', path });
  });

  test('keys of one name in different groups, and quotes and brackets inside text, are no trouble', () => {
    const note = '{"a":1,"a":2}[[[[\\" \\\\';
    const noted = readHeader(writeHeader({ ...demo, note }));
    expect(noted.ok && noted.value.note).toBe(note);
  });

  test('the place where the text stops making sense is given by line and column', () => {
    const broken = text.replace('"version": 1,', '"version": 1;');
    expect(firstProblem(readHeader(broken))).toMatchObject({ reason: 'notJson', detail: 'line 3, column 15' });
    expect(firstProblem(readHeader(text.slice(0, 500)))).toMatchObject({ reason: 'notJson' });
  });

  test('the place of a fault is found exactly where the parser refuses, and only there', () => {
    fc.assert(
      fc.property(
        fc.json(),
        fc.nat(),
        fc.constantFrom('', ',', ':', '"', '}', ']', '{', 'x', '0', '-', '\\', '\n', 'NaN'),
        (json, seed, part) => {
          const at = seed % (json.length + 1);
          const mutant = json.slice(0, at) + part + json.slice(at + (seed % 3));
          let isJson = true;
          try {
            JSON.parse(mutant);
          } catch {
            isJson = false;
          }
          const found = jsonProblem(mutant);
          const isFault = found?.kind === 'unreadableFile' && found.reason === 'notJson';
          // A doubled key is JSON, and may be met before the fault.
          if (found === null || isFault) expect(isFault, mutant).toBe(!isJson);
        },
      ),
      { numRuns: 5_000 },
    );
  });

  test('values of the wrong JavaScript type do not get past the check either', () => {
    for (const value of [undefined, null, 0, 'x', [], {}, new Map(), Object.create(null), () => demo]) {
      expect(checkHeader(value).ok).toBe(false);
    }
  });
});

describe('problems', () => {
  test('all problems of a file are told at once, each with its path', () => {
    const odd = { ...demo, primaries: [{ ...demo.primaries[0], name: 7, pieces: [{ kind: 'bend' }] }], colour: 1 };
    const result = readHeader(JSON.stringify({ format: 'evenrun-header', version: 1, header: odd }));
    const paths = result.ok ? [] : result.problems.map((problem) => 'path' in problem && problem.path.join('.'));
    expect(paths).toContain('primaries.0.name');
    expect(paths).toContain('primaries.0.pieces.0.angleDeg');
    expect(paths).toContain('colour');
  });

  test('of two thousand problems fifty are told, and how many more there are', () => {
    const pieces = Array.from({ length: 400 }, () => ({ kind: 'straight' }));
    const result = checkHeader({ ...demo, primaries: [{ ...demo.primaries[0], pieces }] });
    const problems = result.ok ? [] : result.problems;
    expect(problems.length).toBe(51);
    // Each piece lacks five fields.
    expect(problems.at(-1)).toEqual({ kind: 'moreProblems', path: [], count: 400 * 5 - 50 });
  });

  test.each([1_000, 150_000])('%d unknown fields are read to the end, and fifty of them told', (count) => {
    const fields = Object.fromEntries(Array.from({ length: count }, (_, index) => [`field${index}`, 0]));
    const atTop = readHeader(JSON.stringify({ format: 'evenrun-header', version: 1, header: demo, ...fields }));
    const within = readHeader(JSON.stringify({ format: 'evenrun-header', version: 1, header: { ...demo, ...fields } }));
    for (const result of [atTop, within]) {
      const problems = result.ok ? [] : result.problems;
      expect(problems.slice(0, -1).map(({ kind }) => kind)).toEqual(Array(50).fill('unknownField'));
      expect(problems.at(-1)).toEqual({ kind: 'moreProblems', path: [], count: count - 50 });
      expect(describeProblem(problems[50] as HeaderProblem)).toContain(`${count - 50} more`);
    }
  });

  test('64 primaries with 500 pieces of which nothing is right are told, not thrown', () => {
    const pieces = Array.from({ length: 500 }, () => ({ kind: 'bend' }));
    const result = checkHeader({ ...demo, primaries: Array.from({ length: 64 }, () => ({ pieces })) });
    expect(result.ok ? 0 : result.problems.length).toBe(51);
  });

  test('a newer version is told apart from a broken file', () => {
    const newer = text.replace('"version": 1', '"version": 3');
    expect(firstProblem(readHeader(newer))).toEqual({ kind: 'newerFormat', path: ['version'], found: 3, supported: 1 });
  });
});
