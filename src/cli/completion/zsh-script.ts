import type { CompletedCommand, CompletedOption, Offer } from './completion-model.ts';
import type { ToolWords } from './tool-words.ts';

/** The script for zsh: a function that may lie in `fpath` or be sourced. */
export const zshScript = (commands: readonly CompletedCommand[], tool: ToolWords): string => `#compdef staywright
# zsh completion of staywright
_staywright() {
  local curcontext=$curcontext state line
  typeset -A opt_args
  local -a commands=(
${tool.words.map(({ word, says }) => `    ${quoted(`${word}:${says}`)}`).join('\n')}
  )
  _arguments -C \\
    '(- *)'{-h,--help}'[the commands]' \\
    '(- *)--version[which version this is]' \\
    '1: :->command' \\
    '*:: :->rest'
  case $state in
  command)
    _describe -t commands 'command' commands ;;
  rest)
    case $words[1] in
    help)
      _arguments ${quoted(`1:command:(${tool.helped.join(' ')})`)} ;;
    completion)
      _arguments ${quoted(`1:shell:(${tool.shells.join(' ')})`)} ;;
${commands.map(commandCase).join('\n')}
    esac ;;
  esac
}
if [[ $funcstack[1] == _staywright ]]; then
  _staywright "$@"
else
  compdef _staywright staywright
fi
`;

const commandCase = ({ name, options, operand }: CompletedCommand): string => {
  const lines = [...options.map(optionSpec), quoted(`*:file:${actionOf(operand)}`)];
  return `    ${name})\n      _arguments -s \\\n${lines.map((line) => `        ${line}`).join(' \\\n')} ;;`;
};

/** `'(-o --output)'{-o,--output}'[says]:file:_files'`; what may be given again stands with a star. */
const optionSpec = ({ long, short, says, repeatable, value }: CompletedOption): string => {
  const words = `[${spec(says)}]${value === undefined ? '' : `:${spec(value.called)}:${actionOf(value)}`}`;
  const star = repeatable ? '*' : '';
  if (short === undefined) return quoted(`${star}${long}${words}`);
  return `'(${short} ${long})'{${short},${long}}${quoted(words)}`;
};

const actionOf = ({ words, files }: Offer): string => {
  if (words.length > 0) return `(${words.map(spec).join(' ')})`;
  if (files === undefined) return ' ';
  if (files.length === 0) return '_files';
  // One ending in brackets would be read as a glob qualifier.
  return `_files -g "*.(#i)${files.length === 1 ? files[0]! : `(${files.join('|')})`}"`;
};

const spec = (text: string): string => text.replaceAll(/[\\[\]:]/g, String.raw`\$&`);

const quoted = (text: string): string => `'${text.replaceAll("'", String.raw`'\''`)}'`;
