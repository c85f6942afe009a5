/** The project's own source files, parsed: what each imports, exports, and how long its functions are. */

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseSync } from 'vite';

export const ROOT = fileURLToPath(new URL('..', import.meta.url));
const SOURCE_FOLDERS = ['core', 'electron', 'renderer', 'tests'] as const;

export interface SourceImport {
  /** As written. */
  readonly specifier: string;
  /** Path from the project's root for a relative import; null for a package. */
  readonly target: string | null;
  readonly isTypeOnly: boolean;
  /** `export … from`. */
  readonly isReExport: boolean;
}

export interface SourceFunction {
  readonly line: number;
  readonly lineCount: number;
}

export interface SourceFile {
  /** From the project's root, with forward slashes. */
  readonly path: string;
  readonly text: string;
  readonly lineCount: number;
  readonly imports: readonly SourceImport[];
  readonly functions: readonly SourceFunction[];
  readonly hasDefaultExport: boolean;
}

/** Every file below the folder, as paths from the root. */
export function filesBelow(folder: string): readonly string[] {
  if (!existsSync(join(ROOT, folder))) return [];
  return readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = posix.join(folder, entry.name);
    return entry.isDirectory() ? filesBelow(path) : [path];
  });
}

interface AstNode {
  readonly type: string;
  readonly start: number;
  readonly end: number;
}

const FUNCTION_TYPES = new Set(['FunctionDeclaration', 'FunctionExpression', 'ArrowFunctionExpression']);

function isNode(value: unknown): value is AstNode {
  return typeof value === 'object' && value !== null && typeof (value as { type?: unknown }).type === 'string';
}

/** Visits every node of a syntax tree, outermost first. */
function visit(value: unknown, see: (node: AstNode) => void): void {
  if (Array.isArray(value)) {
    for (const item of value) visit(item, see);
  } else if (isNode(value)) {
    see(value);
    for (const part of Object.values(value)) if (typeof part === 'object') visit(part, see);
  }
}

function functionsOf(program: unknown, text: string): readonly SourceFunction[] {
  const lineAt = (offset: number) => text.slice(0, offset).split('\n').length;
  const found: SourceFunction[] = [];
  visit(program, (node) => {
    if (!FUNCTION_TYPES.has(node.type)) return;
    const line = lineAt(node.start);
    found.push({ line, lineCount: lineAt(node.end) - line + 1 });
  });
  return found;
}

/** Specifiers of `import('…')`, in code and in types. */
function inlineImports(program: unknown): readonly { specifier: string; isTypeOnly: boolean }[] {
  const found: { specifier: string; isTypeOnly: boolean }[] = [];
  visit(program, (node) => {
    if (node.type !== 'ImportExpression' && node.type !== 'TSImportType') return;
    const { source } = node as AstNode & { source?: { value?: unknown } };
    if (typeof source?.value === 'string')
      found.push({ specifier: source.value, isTypeOnly: node.type === 'TSImportType' });
  });
  return found;
}

/** Reads and parses one file; throws on what does not parse. */
export function parseSource(path: string, text: string): SourceFile {
  const { module, program, errors } = parseSync(path, text);
  if (errors.length > 0) throw new Error(`${path} does not parse: ${errors[0]?.message}`);
  const toImport = (specifier: string, isTypeOnly: boolean, isReExport: boolean): SourceImport => {
    const target = specifier.startsWith('.') ? posix.join(dirname(path), specifier) : null;
    return { specifier, target, isTypeOnly, isReExport };
  };
  const stated = module.staticImports.map(({ moduleRequest, entries, start }) => {
    const isTypeOnly =
      entries.length > 0 ? entries.every((entry) => entry.isType) : text.startsWith('import type', start);
    return toImport(moduleRequest.value, isTypeOnly, false);
  });
  const passedOn = module.staticExports.flatMap(({ entries }) =>
    entries.flatMap((entry) => (entry.moduleRequest ? [toImport(entry.moduleRequest.value, entry.isType, true)] : [])),
  );
  const inline = inlineImports(program).map(({ specifier, isTypeOnly }) => toImport(specifier, isTypeOnly, false));
  return {
    path,
    text,
    lineCount: text.split('\n').length - 1,
    imports: [...stated, ...passedOn, ...inline],
    functions: functionsOf(program, text),
    hasDefaultExport: module.staticExports.some(({ entries }) => entries.some((e) => e.exportName.kind === 'Default')),
  };
}

/** All TypeScript of the project. */
export function readSources(): readonly SourceFile[] {
  return SOURCE_FOLDERS.flatMap(filesBelow)
    .filter((path) => /\.tsx?$/.test(path))
    .map((path) => parseSource(path, readFileSync(join(ROOT, path), 'utf8')));
}
