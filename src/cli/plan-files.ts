import { accessSync, constants, fstatSync, lstatSync, realpathSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { StaywrightError } from '../errors.ts';
import { fileStart, startsSheet } from './file-start.ts';
import { identityOf, type FileIdentity } from './read-file.ts';
import { isFolder, statsOf } from './stats-of.ts';
import { systemReason } from './system-reason.ts';

/** A file that is wanted. */
export interface WantedFile {
  readonly path: string;
  readonly bytes: Uint8Array | string;
}

/** A file that may be written: `target` is its real place, links resolved. */
export interface PlannedFile extends WantedFile {
  readonly target: string;
}

export interface PlanOptions {
  /** Files that were read: never overwritten, under whatever path or link, not even with force. */
  readonly inputs: readonly FileIdentity[];
  /** Files that staywright did not write may be replaced. */
  readonly force: boolean;
  /** A folder that will be made first. */
  readonly newFolder?: string;
}

/** Checks every output before any is written. */
export const planFiles = (files: readonly WantedFile[], options: PlanOptions): PlannedFile[] => {
  const { newFolder } = options;
  if (newFolder !== undefined) checkFolderAround(newFolder);
  const planned = files.map((file) => ({ ...file, target: checkedTarget(file, options) }));
  const targets = planned.map(({ target }) => target);
  const twice = planned.find(({ target }, at) => targets.indexOf(target) !== at);
  if (twice !== undefined) throw refusal(twice.path, 'would be written twice', 'give each output a name of its own');
  return planned;
};

/** Refuses standard output where a shell has tied it to one of the inputs. */
export const checkStandardOutput = (inputs: readonly FileIdentity[]): void => {
  const stats = known(() => fstatSync(1));
  if (stats?.isFile() !== true) return;
  const same = sameFile(identityOf('', stats), inputs);
  if (same !== undefined) {
    throw refusal('standard output', `is the input ${same.name}, which is never overwritten`, 'write to another file');
  }
};

const checkedTarget = ({ path, bytes }: WantedFile, { inputs, force, newFolder }: PlanOptions): string => {
  const folder = dirname(path);
  if (newFolder !== undefined && resolve(folder) === resolve(newFolder)) return resolve(path);
  const target = realTarget(path);
  const stats = statsOf(target);
  if (stats?.isDirectory() === true) throw refusal(path, 'is a folder', `end it with / for a sheet for each panel`);
  if (stats !== undefined) {
    if (!stats.isFile()) throw refusal(path, 'is no plain file', 'write to a file, or leave -o out and use a pipe');
    const same = sameFile(identityOf(path, stats), inputs);
    if (same !== undefined) {
      throw refusal(
        path,
        `is the input${same.name === path ? '' : ` ${same.name}`}, which is never overwritten`,
        'write to another file',
      );
    }
    check(() => accessSync(target, constants.W_OK), path);
    if (!force) checkReplaced(path, fileStart(target), bytes);
  }
  check(() => accessSync(dirname(target), constants.W_OK), path);
  return target;
};

/** Folders are made one at a time: a whole missing path is more likely mistyped. */
const checkFolderAround = (path: string): void => {
  const parent = dirname(path);
  if (!isFolder(parent)) throw refusal(path, `there is no folder ${parent}`, 'make the folder first');
  check(() => accessSync(parent, constants.W_OK), path);
};

const realTarget = (path: string): string => {
  if (known(() => lstatSync(path))?.isSymbolicLink() === true) return check(() => realpathSync(path), path);
  const folder = dirname(path);
  if (!isFolder(folder)) throw refusal(path, `there is no folder ${folder}`, 'make the folder first');
  return join(
    check(() => realpathSync(folder), path),
    basename(path),
  );
};

const sameFile = (file: FileIdentity, inputs: readonly FileIdentity[]): FileIdentity | undefined =>
  inputs.find(({ device, inode }) => device === file.device && inode === file.inode);

/** Only files of the tool's own are replaced, and a sheet, which is work, by a sheet alone. */
const checkReplaced = (path: string, start: string, bytes: WantedFile['bytes']): void => {
  if (!isOurs(start)) {
    throw refusal(path, 'was not written by staywright', 'choose another name, or replace it with --force');
  }
  if (startsSheet(start) && !(typeof bytes === 'string' && startsSheet(bytes.slice(0, start.length)))) {
    throw refusal(
      path,
      'is a sheet, and what would replace it is none',
      'choose another name, or replace it with --force',
    );
  }
};

/** A sheet, a drawing, a picture, a script and a printed PDF are known by their beginnings. */
const isOurs = (text: string): boolean => {
  if (text.startsWith('%PDF-')) return /staywright/i.test(text);
  if (text.startsWith('\x89PNG')) return text.split('IDAT')[0]!.includes('staywright');
  if (text.startsWith('#!/bin/sh\nset -eu\n# staywright record:')) return true;
  return /<svg\b[^>]*\sdata-(?:sheet|drawing|picture)=/.test(text);
};

const check = <Result>(look: () => Result, path: string): Result => {
  try {
    return look();
  } catch (error) {
    throw refusal(path, `cannot be written: ${systemReason(error, 'the system refuses')}`);
  }
};

const known = <Result>(look: () => Result): Result | undefined => {
  try {
    return look();
  } catch {
    return undefined;
  }
};

const refusal = (where: string, message: string, hint?: string): StaywrightError =>
  new StaywrightError('usage', message, { where, ...(hint === undefined ? {} : { hint }) });
