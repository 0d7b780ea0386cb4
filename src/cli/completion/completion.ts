import { StaywrightError } from '../../errors.ts';
import { suggestName } from '../../pattern/suggest.ts';
import type { Command } from '../command.ts';
import { bashScript } from './bash-script.ts';
import { completionModel } from './completion-model.ts';
import { fishScript } from './fish-script.ts';
import { COMPLETION_SUMMARY, SHELLS, toolWords } from './tool-words.ts';
import { zshScript } from './zsh-script.ts';

const SCRIPTS = { bash: bashScript, zsh: zshScript, fish: fishScript } as const;

/** The completion script for the shell that was typed. Throws a usage error where that is none, or not one of the three. */
export const completion = (words: readonly string[], commands: readonly Command[]): string => {
  const [typed, extra] = words;
  if (typed === undefined) {
    throw new StaywrightError('usage', 'for which shell?', { hint: `staywright completion ${SHELLS.join('|')}` });
  }
  const shell = SHELLS.find((known) => known === typed);
  if (shell === undefined) {
    throw new StaywrightError('usage', 'there is no completion for this shell', {
      where: typed,
      hint: suggestName(typed, SHELLS),
    });
  }
  if (extra !== undefined) throw new StaywrightError('usage', 'one shell at a time', { where: extra });
  const model = completionModel(commands);
  return SCRIPTS[shell](model, toolWords(model));
};

/** How to set it up, for each shell. */
export const completionHelp = (): string => `staywright completion: ${COMPLETION_SUMMARY}

  # bash: put this line into ~/.bashrc
  eval "$(staywright completion bash)"

  # zsh: put this line into ~/.zshrc, below compinit
  source <(staywright completion zsh)

  # fish: once, and again after an update
  staywright completion fish > ~/.config/fish/completions/staywright.fish

Usage: staywright completion ${SHELLS.join('|')}

Prints a script that completes commands, options, words such as left and right,
level names, paper sizes, and files by their endings. A shell starts sooner
where the script is kept in a file and that is sourced.
`;
