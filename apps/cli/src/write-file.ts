import { rename, rm, writeFile } from 'node:fs/promises';
import { BadInput } from './bad-input.ts';

/** Writes a file whole or not at all: a reader never sees half of it. @throws BadInput when it cannot be written. */
export const writeWhole = async (path: string, text: string): Promise<void> => {
  const beside = `${path}.${process.pid}.part`;
  try {
    await writeFile(beside, text);
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw new BadInput(`Cannot write ${path}: ${(error as NodeJS.ErrnoException).code}.`);
  }
};
