import { describe, expect, it } from 'vitest';
import { withGrain } from '../support/with-grain.ts';
import { halfPattern } from '../support/half-pattern.ts';
import { printFindings } from '../../src/print/print-findings.ts';

const calm = { margin: 10, title: 'Marchetti bodice', changes: [] };

describe('findings before printing', () => {
  it('are none for an ordinary pattern', () => {
    expect(printFindings(withGrain(halfPattern()), calm)).toEqual([]);
  });

  it('warn of a margin that printers cut into', () => {
    const pattern = withGrain(halfPattern());
    expect(printFindings(pattern, { ...calm, margin: 5 })).toMatchObject([{ kind: 'narrow-margin' }]);
    expect(printFindings(pattern, { ...calm, margin: 6 })).toEqual([]);
  });

  it('name the panels that have no grainline', () => {
    const pattern = withGrain(halfPattern());
    const panels = pattern.panels.map(({ grain, ...panel }, at) => (at % 2 || !grain ? panel : { ...panel, grain }));
    expect(printFindings({ ...pattern, panels }, calm)).toMatchObject([
      { kind: 'no-grainline', weight: 'note', where: 'panels front-side, side-back, back' },
    ]);
  });

  it('name the panel and the character that no font has', () => {
    const pattern = withGrain(halfPattern());
    const panels = pattern.panels.map((panel, at) => (at === 2 ? { ...panel, name: 'side \u{10FFFD}' } : panel));
    expect(printFindings({ ...pattern, panels }, calm)).toMatchObject([
      { kind: 'no-letter', where: 'panel side \u{10FFFD}', message: 'prints as an empty box: U+10FFFD' },
    ]);
  });
});
