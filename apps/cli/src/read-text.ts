import { readFile } from 'node:fs/promises';
import { text } from 'node:stream/consumers';
import { BadInput } from './bad-input.ts';

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'no such file',
  EISDIR: 'it is a folder',
  EACCES: 'no permission to read it',
};

/** Text of a file, or of stdin for '-'. @throws BadInput when it cannot be read. */
export const readText = async (path: string): Promise<string> => {
  if (path === '-') return text(process.stdin);
  try {
    return await readFile(path, 'utf8');
  } catch (error) {
    const { code = '' } = error as NodeJS.ErrnoException;
    throw new BadInput(`Cannot read ${path}: ${reasons[code] ?? code}.`);
  }
};
