import { isPlain } from '../history/shape.ts';
import type { Job } from '../schema/job-schema.ts';
import type { FileType, JobFile } from '../schema/photo-schema.ts';

/** Bytes of a photo or drawing. They never change: another picture has another SHA-256. */
export type StoredFile = { readonly type: FileType; readonly bytes: Uint8Array };

/** Bytes in one `String.fromCharCode` call: all arguments of a call go to the stack. */
const chunk = 0x8000;

/** Bytes as base64 text, as a file of a job keeps them; `fromBase64` is its inverse. */
export const toBase64 = (bytes: Uint8Array): string => {
  let text = '';
  for (let i = 0; i < bytes.length; i += chunk) text += String.fromCharCode(...bytes.subarray(i, i + chunk));
  return btoa(text);
};

/** Bytes of a base64 text; undefined when it is none. */
export const fromBase64 = (text: string): Uint8Array | undefined => {
  try {
    return Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
  } catch {
    return undefined;
  }
};

/** SHA-256 of every file that the job refers to anywhere. */
export const referredFiles = (job: Job): ReadonlySet<string> => {
  const found = new Set<string>();
  const walk = (value: unknown): void => {
    if (Array.isArray(value)) value.forEach(walk);
    else if (isPlain(value))
      for (const [key, item] of Object.entries(value))
        if (key === 'sha256' && typeof item === 'string') found.add(item);
        else walk(item);
  };
  const { files: _, ...rest } = job;
  walk(rest);
  return found;
};

/** The job for one file on its own: with the bytes it refers to, as far as they are at hand. */
export const withFiles = (job: Job, stored: ReadonlyMap<string, StoredFile>): Job => {
  const files = [...referredFiles(job)].flatMap((sha256): JobFile[] => {
    const file = stored.get(sha256);
    return file === undefined ? [] : [{ sha256, type: file.type, data: toBase64(file.bytes) }];
  });
  const { files: _, ...rest } = job;
  return files.length === 0 ? rest : { ...rest, files };
};

/** The job as the store keeps it, and the bytes that came with it; bytes that are no base64 are left out. */
export const withoutFiles = (
  job: Job,
): { readonly job: Job; readonly files: ReadonlyMap<string, StoredFile> } => {
  const { files = [], ...rest } = job;
  return {
    job: rest,
    files: new Map(
      files.flatMap(({ sha256, type, data }): [string, StoredFile][] => {
        const bytes = fromBase64(data);
        return bytes === undefined ? [] : [[sha256, { type, bytes }]];
      }),
    ),
  };
};
