import type { Finding } from '../pattern/finding.ts';
import { hashGeometry } from '../record/hash-geometry.ts';
import { chainEnd, type Step } from '../record/record-chain.ts';
import type { Sheet } from '../svg/sheet.ts';
import { stepName } from './record-step.ts';

/** Says of a whole sheet that it is not what its last step left; nothing where it is, or where that cannot be told. */
export const changedSince = (
  { pattern, part }: Sheet,
  chain: readonly Step[],
): Pick<Finding, 'where' | 'message'>[] => {
  const end = chainEnd(chain);
  if (part !== undefined || end === undefined || end === hashGeometry(pattern)) return [];
  const message = `is not what ${stepName(chain.at(-1)!)}, left: it was changed by other means since`;
  return [{ where: pattern.name, message }];
};
