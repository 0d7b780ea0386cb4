import { checkAllowances } from './check-allowances.ts';
import { checkMarks } from './check-marks.ts';
import { checkNames } from './check-names.ts';
import { checkOutline } from './check-outline.ts';
import type { Finding } from './finding.ts';
import { allGussetFindings } from './gusset-findings.ts';
import { mateFindings } from './mates.ts';
import { meetingFindings } from './meeting-findings.ts';
import type { Pattern } from './pattern.ts';

/**
 * Everything that can be wrong with a pattern, each with its place and its cure: first names, then each panel's outline and marks, then
 * allowances, then seams whose two edges or notches do not match and gussets that do not fit. Marks of a panel whose outline is broken are not looked at.
 */
export const checkPattern = (pattern: Pattern): Finding[] => {
  if (pattern.panels.length === 0) {
    const cure = 'label a drawing first, with staywright label';
    return [{ weight: 'error', kind: 'no-panels', where: 'the sheet', message: 'has no panels', cure }];
  }
  const shapes = pattern.panels.flatMap((panel) => {
    const outline = checkOutline(panel, pattern.units);
    return outline.some(({ weight }) => weight === 'error')
      ? outline
      : [...outline, ...checkMarks(panel, pattern.units)];
  });
  const broken = shapes.some(({ kind }) => kind.startsWith('outline-'));
  const comparable = !broken && pattern.panels.every(({ line }) => line === 'stitching');
  return [
    ...checkNames(pattern),
    ...shapes,
    ...(broken ? [] : checkAllowances(pattern)),
    ...(comparable ? [...mateFindings(pattern), ...meetingFindings(pattern)] : []),
    ...(broken ? [] : allGussetFindings(pattern)),
  ];
};
