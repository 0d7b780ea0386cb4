import type { CompletedCommand } from './completion-model.ts';

export const SHELLS = ['bash', 'zsh', 'fish'] as const;

type Shell = (typeof SHELLS)[number];

/** What may follow `staywright` itself. */
export interface ToolWords {
  readonly words: readonly { readonly word: string; readonly says: string }[];
  /** What may follow `help`. */
  readonly helped: readonly string[];
  readonly shells: readonly Shell[];
}

export const COMPLETION_SUMMARY = 'commands and options at the press of a key, in your shell';

export const toolWords = (commands: readonly CompletedCommand[]): ToolWords => {
  const completion = { word: 'completion', says: COMPLETION_SUMMARY };
  const named = [...commands.map(({ name, summary }) => ({ word: name, says: summary })), completion];
  return {
    words: [...named, { word: 'help', says: 'what a command takes, with examples' }],
    helped: named.map(({ word }) => word),
    shells: SHELLS,
  };
};
