/** Gathers the values of an option that may be given more than once. */
export const collect = (value: string, before: string[] | undefined): string[] => [...(before ?? []), value];
