import type { Command } from './command.ts';
import { groupBy } from './group-by.ts';
import { optionsOf } from './parse-command-line.ts';

/** An option that many commands have; `only` names those for which it says something of its own. */
export interface ListedOption {
  readonly flags: string;
  readonly says: string;
  readonly only?: readonly string[];
}

/** The options that commands share, each once for everything that it says, what it says for most of them first. */
export const sharedOptionList = (commands: readonly Command[]): ListedOption[] => {
  const rows = commands.flatMap((command) =>
    optionsOf(command)
      .filter(({ shared }) => shared)
      .map(({ flags, says }) => ({ name: command.name, flags, says })),
  );
  return groupBy(rows, ({ flags }) => flags).flatMap(([flags, same]) => {
    const sayings = groupBy(same, ({ says }) => says).toSorted(([, one], [, other]) => other.length - one.length);
    return sayings.map(([says, group], at) => ({
      flags,
      says,
      ...(at === 0 ? {} : { only: group.map(({ name }) => name) }),
    }));
  });
};
