/** The least PDF there is: one page, twice as wide as high, with a rectangle of walls on it. */
export const tinyPdf = (): { name: string; mimeType: string; buffer: Buffer } => {
  const drawing = '4 w 40 40 640 280 re S 200 40 m 200 320 l S';
  const objects = [
    '<< /Type /Catalog /Pages 2 0 R >>',
    '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
    '<< /Type /Page /Parent 2 0 R /MediaBox [0 0 720 360] /Contents 4 0 R /Resources << >> >>',
    `<< /Length ${drawing.length} >>\nstream\n${drawing}\nendstream`,
  ];
  let text = '%PDF-1.4\n';
  const places = objects.map((object, i) => {
    const place = text.length;
    text += `${i + 1} 0 obj\n${object}\nendobj\n`;
    return place;
  });
  const table = text.length;
  const rows = places.map((place) => `${String(place).padStart(10, '0')} 00000 n \n`).join('');
  text += `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${rows}`;
  text += `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R >>\nstartxref\n${table}\n%%EOF\n`;
  return { name: 'plan.pdf', mimeType: 'application/pdf', buffer: Buffer.from(text, 'latin1') };
};
