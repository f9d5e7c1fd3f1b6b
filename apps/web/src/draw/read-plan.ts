/** Longest side of a kept picture, px: enough to trace by, small enough to keep. */
const most_px = 2400;

/** A picture of a plan, to be kept. */
export type PlanPicture = { readonly blob: Blob; readonly width: number; readonly height: number };

const scaleFor = (width: number, height: number): number => Math.min(1, most_px / Math.max(width, height));

const fromImage = async (file: Blob): Promise<PlanPicture> => {
  const whole = await createImageBitmap(file);
  const scale = scaleFor(whole.width, whole.height);
  const [width, height] = [Math.round(whole.width * scale), Math.round(whole.height * scale)];
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext('2d')!.drawImage(whole, 0, 0, width, height);
  // Lines of a drawing stay sharp as PNG; a photo is smaller as JPEG.
  const type = file.type === 'image/png' ? 'image/png' : 'image/jpeg';
  return { blob: await canvas.convertToBlob({ type, quality: 0.82 }), width, height };
};

const fromPdf = async (file: Blob, page: number): Promise<PlanPicture> => {
  const pdf = await import('pdfjs-dist');
  const worker = await import('pdfjs-dist/build/pdf.worker.min.mjs?url');
  pdf.GlobalWorkerOptions.workerSrc = worker.default;
  const document = await pdf.getDocument({ data: await file.arrayBuffer() }).promise;
  if (page < 1 || page > document.numPages)
    throw new Error(
      `The PDF has ${document.numPages} ${document.numPages === 1 ? 'page' : 'pages'}; there is no page ${page}.`,
    );
  const sheet = await document.getPage(page);
  const whole = sheet.getViewport({ scale: 1 });
  const viewport = sheet.getViewport({ scale: most_px / Math.max(whole.width, whole.height) });
  const [width, height] = [Math.round(viewport.width), Math.round(viewport.height)];
  const canvas = window.document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  await sheet.render({ canvas, viewport }).promise;
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
  if (!blob) throw new Error('The page could not be drawn.');
  return { blob, width, height };
};

/** Reads a plan from a PNG, JPEG or WebP picture or from a page of a PDF; throws with words for the user. */
export const readPlan = async (file: File, page = 1): Promise<PlanPicture> => {
  if (file.type === 'application/pdf' || /\.pdf$/i.test(file.name)) return fromPdf(file, page);
  try {
    return await fromImage(file);
  } catch {
    throw new Error(`${file.name} is no picture that can be read. Choose a PNG, JPEG or PDF file.`);
  }
};
