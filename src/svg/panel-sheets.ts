import type { Sheet } from './sheet.ts';
import { writeSheet } from './write-sheet.ts';

/** Of up to 4 bytes each: file systems hold 255. */
const MOST_CHARACTERS = 60;

/** A panel's name as a file can bear it on every system. */
const fileName = (panel: string): string => {
  const plain = [...panel]
    .slice(0, MOST_CHARACTERS)
    .join('')
    // oxlint-disable-next-line no-control-regex
    .replace(/[\u0000-\u001f\u007f/\\:*?"<>|]/g, '_')
    .replace(/^\.+|[. ]+$/g, '_');
  return /^(?:con|prn|aux|nul|com\d|lpt\d)$/i.test(plain) ? `${plain}_` : plain;
};

/**
 * One sheet for each panel, each with the whole record, for a folder that `joinSheets` reads again. `name` is a file name without its
 * ending; names that differ only in case are told apart by number. Other artwork goes with the first.
 */
export const panelSheets = (sheet: Sheet): { readonly name: string; readonly text: string }[] => {
  const { art, pattern, record } = sheet;
  const used = new Set<string>();
  return pattern.panels.map((panel, i) => {
    let name = fileName(panel.name);
    for (let n = 2; used.has(name.toLowerCase()); n += 1) name = `${fileName(panel.name)}-${n}`;
    used.add(name.toLowerCase());
    const part = { number: i + 1, of: pattern.panels.length };
    const own = { pattern: { ...pattern, panels: [panel] }, record, part };
    return { name, text: writeSheet(i === 0 && art !== undefined ? { ...own, art } : own, pattern.panels) };
  });
};
