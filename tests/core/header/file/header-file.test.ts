/** The file format: what is written is read again, and nothing is taken on trust. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { jsonFault } from '../../../../core/header/file/json-fault.ts';
import {
  checkHeader,
  demoHeader,
  type Header,
  type HeaderProblem,
  type Result,
  readHeader,
  readHeaderBytes,
  writeHeader,
} from '../../../../core/index.ts';
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
          expect(jsonFault(mutant) === null, mutant).toBe(isJson);
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

  test('a thousand problems are cut to a hundred', () => {
    const pieces = Array.from({ length: 400 }, () => ({ kind: 'straight' }));
    const result = checkHeader({ ...demo, primaries: [{ ...demo.primaries[0], pieces }] });
    expect(result.ok ? 0 : result.problems.length).toBe(100);
  });

  test('a newer version is told apart from a broken file', () => {
    const newer = text.replace('"version": 1', '"version": 3');
    expect(firstProblem(readHeader(newer))).toEqual({ kind: 'newerFormat', path: ['version'], found: 3, supported: 1 });
  });
});
