import { type Job, type JobPhoto, uniqueId } from '@airledger/job';
import { type Remote, wrap } from 'comlink';
import { useEffect, useState } from 'react';
import { type EditResult, edit, useResolvedJob } from '../document/document.ts';
import { whoAmI } from '../document/who.ts';
import { keepFile, keptFile, sha256Of } from './files.ts';
import type { Photographer } from './photo-worker.ts';

let photographer: Remote<Photographer> | undefined;

const startPhotographer = (): Remote<Photographer> => {
  photographer ??= wrap<Photographer>(
    new Worker(new URL('./photo-worker.ts', import.meta.url), { type: 'module' }),
  );
  return photographer;
};

/** A photo of the job, with the address of its small picture once that is at hand. */
export type ShownPhoto = JobPhoto & { readonly thumb?: string };

/**
 * Scales a photo down, keeps it, and adds it to the record or field that it shows (`systems/main/parts/run-2`), in the
 * state in view. Fails in words when the file is no picture.
 */
export const addPhoto = async (file: File, of: string, caption = ''): Promise<EditResult> => {
  const scaled = await startPhotographer()
    .scalePhoto(file)
    .catch(() => undefined);
  if (!scaled)
    return {
      ok: false,
      errors: [
        {
          path: of,
          value: file.name,
          expected: 'a picture',
          remedy: 'Choose a JPEG, PNG or WebP file.',
          message: `${file.name} is no picture that can be read. Choose a JPEG, PNG or WebP file.`,
        },
      ],
    };
  const sha256 = await sha256Of(await scaled.photo.arrayBuffer());
  await keepFile(sha256, scaled.photo, scaled.thumb);
  const taken = localTime(new Date(file.lastModified));
  const by = whoAmI();
  return edit(caption ? `Photo: ${caption}` : 'Photo added', (job) =>
    withPhoto(job, { sha256, of, taken, ...(caption && { caption }), ...(by && { by }) }),
  );
};

const withPhoto = (job: Job, photo: Omit<JobPhoto, 'id'>): Job => {
  const photos = job.photos ?? [];
  // Named after its bytes, so that photos added on two tablets never share an id.
  const id = uniqueId(job, `photo-${photo.sha256.slice(0, 8)}`);
  return { ...job, photos: [...photos, { id, ...photo }] };
};

/** Takes a photo out of the job in the state in view; its bytes stay, as an undo may want them. */
export const removePhoto = (id: string): EditResult =>
  edit('Photo removed', (job) => ({ ...job, photos: job.photos?.filter((photo) => photo.id !== id) }));

/** Another caption for a photo. */
export const captionPhoto = (id: string, caption: string): EditResult =>
  edit('Photo described', (job) => ({
    ...job,
    photos: job.photos?.map((photo) => (photo.id === id ? { ...photo, caption } : photo)),
  }));

const addresses = new Map<string, string>();

/** Address of a photo's picture, small or whole; undefined when it is neither here nor within reach. */
export const photoAddress = async (sha256: string, size: 'thumb' | 'whole'): Promise<string | undefined> => {
  const key = `${size} ${sha256}`;
  const known = addresses.get(key);
  if (known) return known;
  const file = await keptFile(sha256);
  if (!file) return undefined;
  if (size === 'thumb' && !file.thumb) {
    const scaled = await startPhotographer()
      .scalePhoto(file.blob)
      .catch(() => undefined);
    if (scaled) await keepFile(sha256, file.blob, scaled.thumb);
    addresses.set(key, URL.createObjectURL(scaled?.thumb ?? file.blob));
  } else addresses.set(key, URL.createObjectURL((size === 'thumb' && file.thumb) || file.blob));
  return addresses.get(key);
};

const noPhotos: readonly JobPhoto[] = [];

/** Photos of a record or field in the state in view. */
export const usePhotos = (path: string): readonly ShownPhoto[] => {
  const all = useResolvedJob()?.photos ?? noPhotos;
  const [thumbs, setThumbs] = useState<Readonly<Record<string, string>>>({});
  const own = all.filter((photo) => photo.of === path);
  const wanted = own.map(({ sha256 }) => sha256).join(' ');
  useEffect(() => {
    let current = true;
    for (const sha256 of wanted.split(' ').filter(Boolean))
      void photoAddress(sha256, 'thumb').then((address) => {
        if (current && address) setThumbs((before) => ({ ...before, [sha256]: address }));
      });
    return () => {
      current = false;
    };
  }, [wanted]);
  return own.map((photo) => ({ ...photo, thumb: thumbs[photo.sha256] }));
};

/** "2025-06-30 10:15", by the clock of the place. */
const localTime = (date: Date): string => {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())} ${two(date.getHours())}:${two(date.getMinutes())}`;
};
