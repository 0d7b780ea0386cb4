/** A command as typed, in lines of at most `width` where its options and pipes let it be broken; a shell reads it as before. */
export const foldCommand = (command: string, width: number): string =>
  command
    .split('\n')
    .flatMap((line) => foldLine(line, width))
    .join('\n');

const foldLine = (line: string, width: number): string[] => {
  if (line.length <= width) return [line];
  const indent = /^ */.exec(line)![0];
  const [at, end] = lastBreak(line, indent.length, width);
  if (at < 0) return [line];
  return [line.slice(0, at) + end, ...foldLine(`${indent === '' ? '  ' : indent}${line.slice(at).trim()}`, width)];
};

/** After a pipe if there is one, else before the last option that leaves room for a backslash. */
const lastBreak = (line: string, from: number, width: number): readonly [at: number, end: string] => {
  const pipe = line.lastIndexOf(' | ', width - 2);
  if (pipe > from) return [pipe + 2, ''];
  const options = [...line.matchAll(/ (?=--?[a-z])/g)].map(({ index }) => index);
  return [options.findLast((index) => index > from && index <= width - 2) ?? -1, ' \\'];
};
