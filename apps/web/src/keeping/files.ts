import type { FileType } from '@airledger/job';
import { type KeptFile, localStore } from './local-store.ts';
import { server } from './server.ts';

/** SHA-256 of bytes, in hexadecimal. */
export const sha256Of = async (bytes: ArrayBuffer): Promise<string> =>
  [...new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))]
    .map((byte) => byte.toString(16).padStart(2, '0'))
    .join('');

/** Keeps bytes under their SHA-256; bytes that are not those of the name are not kept. */
export const keepFile = async (sha256: string, blob: Blob, thumb?: Blob): Promise<void> => {
  if ((await sha256Of(await blob.arrayBuffer())) !== sha256) return;
  const db = await localStore();
  const known = await db.get('files', sha256);
  if (known && (known.thumb || !thumb)) return;
  await db.put('files', {
    sha256,
    type: blob.type as FileType,
    blob,
    sent: known?.sent ?? false,
    ...(thumb && { thumb }),
  });
};

/** Bytes that are kept here, or else brought from the server and kept; undefined when neither has them. */
export const keptFile = async (sha256: string): Promise<KeptFile | undefined> => {
  const db = await localStore();
  const known = await db.get('files', sha256);
  if (known) return known;
  const blob = await server.getFile(sha256).catch(() => undefined);
  if (!blob) return undefined;
  const file = { sha256, type: blob.type as FileType, blob, sent: true };
  await db.put('files', file);
  return file;
};
