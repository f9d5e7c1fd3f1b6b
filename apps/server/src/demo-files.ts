import { readdir } from 'node:fs/promises';

const ending = '.airledger.json';

/** Job files in a folder, sorted by name; an absent folder holds none. */
export const demoFiles = async (folder: string): Promise<string[]> => {
  const names = await readdir(folder).catch(() => [] as string[]);
  return names.filter((name) => name.endsWith(ending)).sort();
};
