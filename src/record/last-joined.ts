import type { Change } from './change.ts';
import { joinedVersions, type Joined } from './joined-versions.ts';
import { recordChain } from './record-chain.ts';

/** Those of a record's joined versions on which no step has been done together since. */
export const lastJoined = (record: readonly Change[]): Joined[] => {
  const chain = recordChain(record);
  return joinedVersions(record).filter(({ versions }) => {
    const last = Math.max(...versions.flat().map((change) => record.indexOf(change)));
    return chain.slice(last).every(({ joint }) => joint === 'beside');
  });
};
