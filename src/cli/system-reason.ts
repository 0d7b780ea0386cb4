const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'permission is denied',
  EPERM: 'permission is denied',
  EROFS: 'the disk is read-only',
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EISDIR: 'is a folder',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'its links go round in a circle',
  EMFILE: 'too many files are open',
  EFBIG: 'the file grows too large',
};

/** What the system said, in plain words; `otherwise` where it said something rarer. */
export const systemReason = (error: unknown, otherwise: string): string => {
  const code = (error as { code?: unknown } | null)?.code;
  return typeof code === 'string' ? (REASONS[code] ?? `${otherwise} (${code})`) : otherwise;
};
