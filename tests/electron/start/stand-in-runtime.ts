/** An electron package without its runtime, an archive that stands in for one, and a mirror on this machine that serves it well or badly. */

import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { crc32 } from 'node:zlib';
import { afterAll } from 'vitest';

const MODULES = fileURLToPath(new URL('../../../node_modules', import.meta.url));

export const STAND_IN_VERSION = '45.99.1';
const ARCHIVE_NAME = `electron-v${STAND_IN_VERSION}-linux-x64.zip`;

interface Entry {
  readonly name: string;
  readonly content: Buffer;
  /** Unix mode bits. */
  readonly mode: number;
}

/** The fields that a local header and a directory entry share, from "version needed" to the name's length. */
function sharedFields({ name, content }: Entry): Buffer {
  const fields = Buffer.alloc(24);
  fields.writeUInt16LE(20, 0);
  fields.writeUInt32LE(crc32(content), 10);
  fields.writeUInt32LE(content.length, 14);
  fields.writeUInt32LE(content.length, 18);
  fields.writeUInt16LE(Buffer.byteLength(name), 22);
  return fields;
}

/** A ZIP archive with its entries stored as they are (APPNOTE.TXT 6.3, sections 4.3.7, 4.3.12 and 4.3.16). */
function zipOf(entries: readonly Entry[]): Buffer {
  const files: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const entry of entries) {
    const name = Buffer.from(entry.name);
    const file = Buffer.concat([Buffer.from('PK\x03\x04'), sharedFields(entry), Buffer.alloc(2), name, entry.content]);
    const place = Buffer.alloc(16);
    // The upper half of the external attributes holds the Unix mode of a regular file.
    place.writeUInt32LE(((0o100000 | entry.mode) << 16) >>> 0, 8);
    place.writeUInt32LE(offset, 12);
    // Made by Unix, as the mode is.
    directory.push(Buffer.from('PK\x01\x02\x14\x03', 'latin1'), sharedFields(entry), place, name);
    files.push(file);
    offset += file.length;
  }
  const list = Buffer.concat(directory);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(entries.length, 4);
  end.writeUInt16LE(entries.length, 6);
  end.writeUInt32LE(list.length, 8);
  end.writeUInt32LE(offset, 12);
  return Buffer.concat([...files, list, Buffer.from('PK\x05\x06'), end]);
}

/** The archive of a runtime whose executable is the given script. */
export function standInArchive(script: string, version = STAND_IN_VERSION): Buffer {
  return zipOf([
    { name: 'version', content: Buffer.from(version), mode: 0o644 },
    { name: 'electron', content: Buffer.from(script), mode: 0o755 },
    { name: 'chrome-sandbox', content: Buffer.from('helper'), mode: 0o755 },
    { name: 'resources/filler.pak', content: Buffer.alloc(400_000, 7), mode: 0o644 },
  ]);
}

/** Lays down `electron` as `npm ci` does, among the modules of `project`; its list knows the checksum of `archive`. */
export function installPackage(project: string, archive: Buffer): string {
  const folder = join(project, 'node_modules', 'electron');
  mkdirSync(folder, { recursive: true });
  for (const scope of ['@electron', '@electron-internal']) {
    const link = join(project, 'node_modules', scope);
    if (!existsSync(link)) symlinkSync(join(MODULES, scope), link);
  }
  const checksum = createHash('sha256').update(archive).digest('hex');
  writeFileSync(join(folder, 'package.json'), JSON.stringify({ name: 'electron', version: STAND_IN_VERSION }));
  writeFileSync(join(folder, 'checksums.json'), JSON.stringify({ [ARCHIVE_NAME]: checksum }));
  return folder;
}

export type Answer = (request: IncomingMessage, response: ServerResponse) => void;

/** Half of the archive under a length that promises all of it, and then what `next` does. */
const halfOf = (archive: Buffer, next: (response: ServerResponse) => void): Answer => {
  return (_request, response) => {
    response.writeHead(200, { 'content-length': archive.length });
    response.write(archive.subarray(0, archive.length / 2), () => next(response));
  };
};

export const ANSWERS = {
  whole: (archive: Buffer): Answer => {
    return (_request, response) => response.writeHead(200, { 'content-length': archive.length }).end(archive);
  },
  ofUntoldLength: (archive: Buffer): Answer => {
    return (_request, response) => response.writeHead(200).end(archive);
  },
  /** What was written still goes out. */
  cutOff: (archive: Buffer): Answer => halfOf(archive, (response) => response.socket?.end()),
  silent: (): Answer => () => undefined,
  headOnly: (archive: Buffer): Answer => {
    return (_request, response) => response.writeHead(200, { 'content-length': archive.length }).flushHeaders();
  },
  stalledHalfWay: (archive: Buffer): Answer => halfOf(archive, () => undefined),
  notThere: (): Answer => (_request, response) => response.writeHead(404).end('no such file'),
};

export interface Mirror {
  /** As `ELECTRON_MIRROR` wants it. */
  readonly address: string;
  readonly host: string;
  /** Paths asked for, in order. */
  readonly asked: readonly string[];
  /** How it answers from now on. */
  answer: Answer;
}

const servers: Server[] = [];

/** A mirror on this machine only, gone when the test file ends. */
export async function openMirror(answer: Answer): Promise<Mirror> {
  const asked: string[] = [];
  const mirror = { asked, answer, host: '', address: '' };
  const server = createServer((request, response) => {
    asked.push(request.url ?? '');
    mirror.answer(request, response);
  });
  servers.push(server);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  mirror.host = `127.0.0.1:${(server.address() as AddressInfo).port}`;
  mirror.address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  return mirror;
}

/** An address of this machine at which nobody listens: the port was free a moment ago. */
export async function addressOfNobody(): Promise<string> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  await new Promise((resolve) => server.close(resolve));
  return `http://127.0.0.1:${port}/`;
}

afterAll(() => {
  for (const server of servers) {
    server.closeAllConnections();
    server.close();
  }
});
