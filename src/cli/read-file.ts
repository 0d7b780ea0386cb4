import { fstatSync, readdirSync, type Stats } from 'node:fs';
import { open, type FileHandle } from 'node:fs/promises';
import { basename, dirname } from 'node:path';
import { StaywrightError } from '../errors.ts';
import { nearestName } from '../pattern/suggest.ts';
import { systemReason } from './system-reason.ts';

/** What a file is, under whatever path or link it is reached. */
export interface FileIdentity {
  readonly name: string;
  readonly device: number;
  readonly inode: number;
}

export interface InputFile {
  /** The path as typed, or `standard input`. */
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly identity: FileIdentity;
}

/** A drawing of a garment is a few megabytes at most; a scan in a sheet is what this leaves room for. */
const LARGEST = 64 * 1024 * 1024;

export const identityOf = (name: string, stats: Stats): FileIdentity => ({ name, device: stats.dev, inode: stats.ino });

/** A picture to decode: its path, or its bytes where it came from standard input. */
export interface PictureFile {
  readonly name: string;
  readonly source: string | Uint8Array;
  /** Enough of it to tell what it is. */
  readonly beginning: Uint8Array;
  readonly identity: FileIdentity;
}

const BEGINNING = 4096;

/** Finds a picture without reading it whole, however large; refuses what is missing, unreadable or a folder. */
export const findPicture = async (path: string): Promise<PictureFile> => {
  const { handle, stats } = await openFile(path);
  try {
    const { buffer, bytesRead } = await handle.read(new Uint8Array(BEGINNING), 0, BEGINNING);
    return { name: path, source: path, beginning: buffer.subarray(0, bytesRead), identity: identityOf(path, stats) };
  } finally {
    await handle.close();
  }
};

/** Reads a whole file; refuses what is missing, unreadable, a folder, or over 64 MiB. */
export const readFile = async (path: string): Promise<InputFile> => {
  const { handle, stats } = await openFile(path);
  try {
    const bytes = await collect(handle.createReadStream({ autoClose: false }), path);
    return { name: path, bytes, identity: identityOf(path, stats) };
  } finally {
    await handle.close();
  }
};

const openFile = async (path: string): Promise<{ handle: FileHandle; stats: Stats }> => {
  const handle = await open(path, 'r').catch((error: unknown) => {
    throw new StaywrightError('input', systemReason(error, 'cannot be read'), {
      where: path,
      ...nearFile(path),
      cause: error,
    });
  });
  const stats = await handle.stat();
  if (!stats.isDirectory()) return { handle, stats };
  await handle.close();
  throw new StaywrightError('input', 'is a folder, where a file is wanted', { where: path });
};

/** All of standard input, which can be read once only. */
export const readStandardInput = async (): Promise<InputFile> => {
  const name = 'standard input';
  return { name, bytes: await collect(process.stdin, name), identity: identityOf(name, fstatSync(0)) };
};

const collect = async (stream: AsyncIterable<Uint8Array>, where: string): Promise<Uint8Array> => {
  const chunks: Uint8Array[] = [];
  let size = 0;
  try {
    for await (const chunk of stream) {
      chunks.push(chunk);
      size += chunk.length;
      if (size > LARGEST)
        throw new StaywrightError('input', 'is over 64 MiB', { where, hint: 'take pictures out of it' });
    }
  } catch (error) {
    if (error instanceof StaywrightError) throw error;
    throw new StaywrightError('input', systemReason(error, 'cannot be read'), { where, cause: error });
  }
  return Buffer.concat(chunks);
};

const nearFile = (path: string): { hint?: string } => {
  try {
    const near = nearestName(basename(path), readdirSync(dirname(path)));
    return near === undefined ? {} : { hint: `did you mean ${near}?` };
  } catch {
    return {};
  }
};
