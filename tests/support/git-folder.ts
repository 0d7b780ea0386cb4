import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { inFolder } from './run-staywright.ts';

interface GitRan {
  readonly code: number | null;
  readonly stdout: string;
}

/** A new repository that knows nothing of whoever runs the tests. */
export interface GitFolder {
  readonly path: string;
  git(...words: readonly string[]): GitRan;
  read(file: string): string;
  write(file: string, text: string): void;
  /** Everything in the folder as the next version of the branch. */
  commit(says: string): void;
}

export const gitEnvironment = (): NodeJS.ProcessEnv => ({
  ...process.env,
  GIT_CONFIG_GLOBAL: '/dev/null',
  GIT_CONFIG_NOSYSTEM: '1',
});

const AUTHOR = ['-c', 'user.name=Wardrobe', '-c', 'user.email=wardrobe@example.org'];

/** Gives an empty repository with a branch `main` to `work`, and takes it away afterwards. */
export const inRepository = <Result>(work: (folder: GitFolder) => Promise<Result>): Promise<Result> =>
  inFolder((path) => {
    const git: GitFolder['git'] = (...words) => {
      const { status, stdout, error } = spawnSync('git', [...AUTHOR, ...words], {
        cwd: path,
        env: gitEnvironment(),
        encoding: 'utf8',
      });
      if (error !== undefined) throw error;
      return { code: status, stdout };
    };
    const must = (...words: readonly string[]): void => {
      const { code, stdout } = git(...words);
      if (code !== 0) throw new Error(`git ${words.join(' ')} ended with ${code}: ${stdout}`);
    };
    must('init', '-q', '-b', 'main');
    return work({
      path,
      git,
      read: (file) => readFileSync(join(path, file), 'utf8'),
      write: (file, text) => writeFileSync(join(path, file), text),
      commit: (says) => {
        must('add', '-A');
        must('commit', '-q', '-m', says);
      },
    });
  });

/** What git makes of two texts that came from a third, without a repository: the joined text, and how many places it could not join. */
export const mergeTexts = (
  [ours, base, theirs]: readonly [string, string, string],
  ...options: readonly string[]
): Promise<{ readonly text: string; readonly conflicts: number | null }> =>
  inFolder(async (path) => {
    for (const [name, text] of Object.entries({ ours, base, theirs })) writeFileSync(join(path, name), text);
    const { status, stdout } = spawnSync('git', ['merge-file', '-p', ...options, 'ours', 'base', 'theirs'], {
      cwd: path,
      env: gitEnvironment(),
      encoding: 'utf8',
    });
    return { text: stdout, conflicts: status };
  });
