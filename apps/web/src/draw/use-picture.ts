import { useEffect, useState } from 'react';
import { keptFile } from '../keeping/files.ts';

export type Picture = { readonly url: string; readonly width: number; readonly height: number };

/** A kept picture by its SHA-256, ready to be shown; undefined until it is, and when there is none. */
export const usePicture = (sha256: string | undefined): Picture | undefined => {
  const [picture, setPicture] = useState<Picture>();
  useEffect(() => {
    setPicture(undefined);
    if (sha256 === undefined) return undefined;
    let url: string | undefined;
    let wanted = true;
    void keptFile(sha256).then(async (file) => {
      if (!file || !wanted) return;
      const { width, height } = await createImageBitmap(file.blob);
      if (!wanted) return;
      url = URL.createObjectURL(file.blob);
      setPicture({ url, width, height });
    });
    return () => {
      wanted = false;
      if (url) URL.revokeObjectURL(url);
    };
  }, [sha256]);
  return picture;
};
