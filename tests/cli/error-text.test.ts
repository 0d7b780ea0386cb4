import { describe, expect, it } from 'vitest';
import { errorText, findingText } from '../../src/cli/error-text.ts';
import { exitCodeOf } from '../../src/cli/exit-code.ts';
import { StaywrightError } from '../../src/errors.ts';

describe('what was thrown', () => {
  it('becomes one line and a hint, and its exit code', () => {
    const error = new StaywrightError('impossible', 'would cross itself', {
      where: 'panel side',
      hint: 'take in less',
    });
    expect(errorText(error, 'take-in')).toBe(
      'staywright take-in: panel side: would cross itself\n  hint: take in less\n',
    );
    expect(exitCodeOf(error)).toBe(3);
    expect(exitCodeOf(new StaywrightError('usage', 'x'))).toBe(2);
    expect(exitCodeOf(new StaywrightError('input', 'x'))).toBe(2);
  });

  it('is a bug, exit 70, where it is nothing that a user can mend', () => {
    const text = errorText(new TypeError('x is not a function'), undefined);
    expect(text).toMatch(/^staywright: this is a bug in staywright \d[^\n]*x is not a function\n {2}hint: [^\n]*\n$/);
    expect(exitCodeOf(new TypeError('x'))).toBe(70);
    expect(exitCodeOf('a thrown text')).toBe(70);
  });

  it('keeps to its lines whatever a file put into it', () => {
    const finding = { weight: 'warning', kind: 'x', where: 'a\nb', message: '\u001b[31mred', cure: 'c\u0007' } as const;
    expect(findingText(finding)).toBe('warning: a b:  [31mred\n  hint: c \n');
  });
});
