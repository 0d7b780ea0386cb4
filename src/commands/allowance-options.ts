import type { CornerStyles } from '../alterations/add-allowance.ts';
import type { AllowanceWidths } from '../alterations/allowance/allowance-widths.ts';
import { parseLength } from '../cli/parse-length.ts';
import { parseSettings } from '../cli/parse-settings.ts';
import { StaywrightError } from '../errors.ts';
import { CORNER_STYLES, type CornerStyle } from '../pattern/panel.ts';
import { suggestName } from '../pattern/suggest.ts';

/** `--allowance 15mm --allowance top=6mm`: one width for all edges, others by name. */
export const allowanceWidths = (texts: readonly string[] | undefined): AllowanceWidths => {
  const widths = parseSettings(texts ?? [], '--allowance').map(({ name, value }) => ({ name, width: widthOf(value) }));
  const all = widths.find(({ name }) => name === undefined)?.width;
  const named = widths.flatMap(({ name, width }) => (name === undefined ? [] : [[name, width] as const]));
  return { ...(all === undefined ? {} : { all }), byEdge: Object.fromEntries(named) };
};

const widthOf = (text: string): number => {
  const width = parseLength(text, '--allowance');
  if (width >= 0) return width;
  throw new StaywrightError('usage', `${text} is less than nothing`, {
    where: '--allowance',
    hint: 'a width is 0 or more',
  });
};

/** `--corners folded`, or `--corners top=folded,bottom=square`. */
export const cornerStyles = (texts: readonly string[] | undefined): CornerStyles => {
  const styles: { default: CornerStyle; top?: CornerStyle; bottom?: CornerStyle } = { default: 'mitre' };
  for (const { name = 'default', value } of parseSettings(texts ?? [], '--corners')) {
    const style = CORNER_STYLES.find((known) => known === value);
    if (style === undefined) throw usage(`'${value}' is no way to cut a corner`, suggestName(value, CORNER_STYLES));
    if (name !== 'default' && name !== 'top' && name !== 'bottom') {
      throw usage(`'${name}' has no such corners`, 'corners belong to top and bottom: --corners top=folded');
    }
    styles[name] = style;
  }
  return styles;
};

const usage = (message: string, hint: string): StaywrightError =>
  new StaywrightError('usage', message, { where: '--corners', hint });
