import { shellWords } from '../../src/record/shell-words.ts';
import { runMain } from './run-main.ts';

/** The commands of a printed record, with the files that it was given in place of its arguments. */
export const scriptCommands = (script: string, original: string, others: readonly string[] = []): string[][] =>
  script
    .replaceAll('\\\n', '')
    .split('\n')
    .filter((line) => /^(?:start|step) /.test(line))
    .map((line) => line.replace('"$original"', original).replace(/"\$other_(\d)"/, (_, n) => others[Number(n) - 1]!))
    .map((line) => shellWords(line)!.slice(1));

/** Runs the commands of a printed record in this process, and gives what each of them made. */
export const runRecordScript = async (
  script: string,
  cwd: string,
  original: string,
  others: readonly string[] = [],
): Promise<string[]> => {
  const made: string[] = [];
  for (const words of scriptCommands(script, original, others)) {
    const { code, stdout, stderr } = await runMain([...words, '-q'], { cwd, stdin: made.at(-1) ?? '' });
    if (code !== 0) throw new Error(`${words.join(' ')} ended with ${code}: ${stderr}`);
    made.push(stdout);
  }
  return made;
};
