import { Option } from '@commander-js/extra-typings';

/** An option whose value is one of the words; the command refuses any other in words of its own. */
export const choiceOption = <const Flags extends string>(
  flags: Flags,
  says: string,
  words: readonly string[],
): Option<Flags> => {
  const option = new Option(flags, says);
  option.argChoices = [...words];
  return option;
};
