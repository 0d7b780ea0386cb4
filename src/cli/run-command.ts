import type { Command } from './command.ts';
import { deliver } from './deliver.ts';
import { EXIT } from './exit-code.ts';
import type { Job } from './job.ts';
import { startJob } from './start-job.ts';
import { parseCommandLine } from './parse-command-line.ts';
import { writeStream } from './write-stream.ts';

/** Runs one command on what was typed after its name, delivers what it made, and gives the exit code; `find` leads to the others. */
export const runCommand = async (command: Command, words: readonly string[], find: Job['find']): Promise<number> => {
  const line = parseCommandLine(command, words);
  const reads = command.readsNothingWith.every((option) => line.options[option] === undefined);
  if (reads && line.input === undefined && process.stdin.isTTY) {
    const { shortHelp } = await import('./command-help.ts');
    await writeStream(process.stderr, shortHelp(command));
    return EXIT.usage;
  }
  const job = startJob(line, find);
  const outcome = await command.run(line.options, job);
  await deliver(command, outcome, job);
  return outcome.found === true ? EXIT.found : EXIT.done;
};
