/**
 * Places moved as little as possible so that neighbours stand at least `least` apart, their order kept: what lies too close is spread evenly
 * about its middle. In the order they were given.
 */
export const spreadApart = (places: readonly number[], least: number): number[] => {
  const order = places.map((_, at) => at).toSorted((a, b) => places[a]! - places[b]!);
  const groups: { members: number[]; middle: number }[] = [];
  for (const at of order) {
    let group = { members: [at], middle: places[at]! };
    for (let before = groups.at(-1); before && touches(before, group, least); before = groups.at(-1)) {
      groups.pop();
      const members = [...before.members, ...group.members];
      const sum = members.reduce((total, member) => total + places[member]!, 0);
      group = { members, middle: sum / members.length };
    }
    groups.push(group);
  }
  const spread = [...places];
  for (const { members, middle } of groups) {
    for (const [at, member] of members.entries()) spread[member] = middle + (at - (members.length - 1) / 2) * least;
  }
  return spread;
};

interface Group {
  readonly members: readonly number[];
  readonly middle: number;
}

const touches = (before: Group, after: Group, least: number): boolean =>
  after.middle - before.middle < ((before.members.length + after.members.length) / 2) * least;
