/** Longest side of a photo and of its small picture, px. */
const photo_px = 1600;
const thumb_px = 320;
const quality = 0.8;

export type ScaledPhoto = { readonly photo: Blob; readonly thumb: Blob };

/** A picture turned as it was taken, as JPEG of at most 1600 px, and a small one of at most 320 px. */
export const scalePhoto = async (picture: Blob): Promise<ScaledPhoto> => {
  // Decoding turns the picture as its file says.
  const whole = await createImageBitmap(picture);
  try {
    return { photo: await asJpeg(whole, photo_px), thumb: await asJpeg(whole, thumb_px) };
  } finally {
    whole.close();
  }
};

const asJpeg = async (whole: ImageBitmap, longest: number): Promise<Blob> => {
  const share = Math.min(1, longest / Math.max(whole.width, whole.height));
  const width = Math.max(1, Math.round(whole.width * share));
  const height = Math.max(1, Math.round(whole.height * share));
  const scaled = await createImageBitmap(whole, {
    resizeWidth: width,
    resizeHeight: height,
    resizeQuality: 'high',
  });
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d')!;
  // JPEG has no transparency: what is clear becomes white instead of black.
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, width, height);
  context.drawImage(scaled, 0, 0);
  scaled.close();
  return canvas.convertToBlob({ type: 'image/jpeg', quality });
};
