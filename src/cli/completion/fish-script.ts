import type { CompletedCommand, CompletedOption, Offer } from './completion-model.ts';
import { groupBy } from '../group-by.ts';
import type { ToolWords } from './tool-words.ts';

/** The script for fish; commands that share an option share its line. */
export const fishScript = (commands: readonly CompletedCommand[], tool: ToolWords): string => {
  const first = tool.words.map(({ word, says }) => line('__staywright_at_start', `-a ${word} -d ${quoted(says)}`));
  const options = commands.flatMap(({ name, options: own }) =>
    own.map((option) => ({ name, words: optionWords(option) })),
  );
  const operands = commands.map(({ name, operand }) => ({ name, words: `-a ${quoted(filesCall(operand))}` }));
  const shared = [...groupBy(options, ({ words }) => words), ...groupBy(operands, ({ words }) => words)];
  return `# fish completion of staywright
function __staywright_at_start
    test (count (commandline -opc)) -eq 1
end

function __staywright_in
    set -l words (commandline -opc)
    test (count $words) -ge 2; and contains -- $words[2] $argv
end

function __staywright_files
    __fish_complete_path (commandline -ct) | string match -rei '(?:/|\\.(?:'(string join '|' $argv)'))(?:\\t|$)'
end

complete -c staywright -e
complete -c staywright -f
${first.join('\n')}
complete -c staywright -n __staywright_at_start -s h -l help -d 'the commands'
complete -c staywright -n __staywright_at_start -l version -d 'which version this is'
${line('__staywright_in help', `-a ${quoted(tool.helped.join(' '))}`)}
${line('__staywright_in completion', `-a ${quoted(tool.shells.join(' '))}`)}
${shared.map(([words, group]) => line(`__staywright_in ${group.map(({ name }) => name).join(' ')}`, words)).join('\n')}
`;
};

const line = (condition: string, words: string): string => `complete -c staywright -n ${quoted(condition)} ${words}`;

const optionWords = ({ long, short, says, value }: CompletedOption): string => {
  const flags = `${short === undefined ? '' : `-s ${short.slice(1)} `}-l ${long.slice(2)}`;
  return `${flags}${value === undefined ? '' : valueWords(value)} -d ${quoted(says)}`;
};

const valueWords = (value: Offer): string => {
  if (value.words.length > 0) return ` -x -a ${quoted(value.words.join(' '))}`;
  if (value.files === undefined) return ' -x';
  return value.files.length === 0 ? ' -r -F' : ` -x -a ${quoted(filesCall(value))}`;
};

const filesCall = ({ files = [] }: Offer): string => `(__staywright_files ${files.join(' ')})`;

const quoted = (text: string): string => `'${text.replaceAll(/['\\]/g, String.raw`\$&`)}'`;
