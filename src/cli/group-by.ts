/** The items parted by what `keyOf` says of them, in the order in which each was first seen. */
export const groupBy = <Item>(items: readonly Item[], keyOf: (item: Item) => string): [string, Item[]][] => {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return [...groups];
};
