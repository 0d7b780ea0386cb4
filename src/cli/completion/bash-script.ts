import type { CompletedCommand, Offer } from './completion-model.ts';
import { groupBy } from '../group-by.ts';
import type { ToolWords } from './tool-words.ts';

/** The script that bash sources; it asks nothing of the tool itself, and needs no more than bash 3.2. */
export const bashScript = (
  commands: readonly CompletedCommand[],
  tool: ToolWords,
): string => `# bash completion of staywright
_staywright() {
    local word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]} command=\${COMP_WORDS[1]}
    local options= words= files= value= name
    COMPREPLY=()
    # bash parts --side=left into three words.
    if [[ $word == = ]]; then
        word=
    elif [[ $before == = ]]; then
        before=\${COMP_WORDS[COMP_CWORD-2]}
    fi
    case $command in
${commands.map(commandCase).join('\n')}
    esac
    case "$command $before" in
${valueCases(commands).join('\n')}
    *'>' | *'<')
        value=1 files=. ;;
    esac
    if ((COMP_CWORD == 1)); then
        value=1 words='${[...tool.words.map(({ word }) => word), '--help', '--version'].join(' ')}'
    elif ((COMP_CWORD == 2)) && [[ $command == help ]]; then
        words='${tool.helped.join(' ')}'
    elif ((COMP_CWORD == 2)) && [[ $command == completion ]]; then
        words='${tool.shells.join(' ')}'
    fi
    if [[ -z $value && $word == -* ]]; then
        words=$options files=
    fi
    COMPREPLY=($(compgen -W "$words" -- "$word"))
    [[ -n $files ]] || return 0
    compopt -o filenames 2>/dev/null
    while IFS= read -r name; do
        if [[ -d \${name/#\\~/$HOME} || $name =~ $files ]]; then COMPREPLY+=("$name"); fi
    done < <(compgen -f -- "$word")
}
complete -F _staywright staywright
`;

const commandCase = ({ name, options, operand }: CompletedCommand): string => {
  const flags = options.flatMap(({ short, long }) => (short === undefined ? [long] : [short, long]));
  return `    ${name})\n        options='${flags.join(' ')}'${offered(operand)} ;;`;
};

/** What each option that takes a value is followed by: once for all commands where they agree. */
const valueCases = (commands: readonly CompletedCommand[]): string[] => {
  const values = commands.flatMap(({ name, options }) =>
    options.flatMap(({ long, short, value }) => {
      if (value === undefined) return [];
      return [long, ...(short === undefined ? [] : [short])].map((flag) => ({ name, flag, offer: offered(value) }));
    }),
  );
  const places = groupBy(values, ({ flag }) => flag).flatMap(([flag, same]) => {
    if (new Set(same.map(({ offer }) => offer)).size === 1) return [{ place: `*' ${flag}'`, offer: same[0]!.offer }];
    return same.map(({ name, offer }) => ({ place: `'${name} ${flag}'`, offer }));
  });
  return groupBy(places, ({ offer }) => offer).map(
    ([offer, group]) => `    ${group.map(({ place }) => place).join(' | ')})\n        value=1 words= files=${offer} ;;`,
  );
};

const offered = ({ words, files }: Offer): string => {
  const named = words.length === 0 ? '' : ` words='${words.join(' ')}'`;
  return files === undefined ? named : `${named} files='${filesPattern(files)}'`;
};

/** Endings in either case, as a regular expression; a scanner may well write `.JPG`. */
const filesPattern = (endings: readonly string[]): string => {
  if (endings.length === 0) return '.';
  return `\\.(${endings.map((ending) => [...ending].map(either).join('')).join('|')})$`;
};

const either = (letter: string): string => `[${letter}${letter.toUpperCase()}]`;
