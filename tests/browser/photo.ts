import type { Page } from '@playwright/test';

/** A photo as a tablet's camera would give it: 4000 × 3000 pixels, JPEG; a duct end hanging beside its boot. */
export const sharpPhoto = async (page: Page) => {
  const data = await page.evaluate(() => {
    const canvas = Object.assign(document.createElement('canvas'), { width: 4000, height: 3000 });
    const pen = canvas.getContext('2d')!;
    const ground = pen.createLinearGradient(0, 0, 0, 3000);
    ground.addColorStop(0, '#3a2f25');
    ground.addColorStop(0.55, '#7a6248');
    ground.addColorStop(1, '#c9a58a');
    pen.fillStyle = ground;
    pen.fillRect(0, 0, 4000, 3000);
    // Truss, insulation with the open boot in it, and the flex that has slipped off.
    pen.strokeStyle = '#a98556';
    pen.lineWidth = 220;
    pen.beginPath();
    pen.moveTo(0, 300);
    pen.lineTo(4000, 1300);
    pen.stroke();
    pen.fillStyle = '#e8c3bb';
    for (let i = 0; i < 400; i++)
      pen.fillRect((i * 911) % 4000, 2150 + ((i * 577) % 800), 160, 30 + ((i * 37) % 40));
    pen.fillStyle = '#8f979c';
    pen.fillRect(2300, 1900, 800, 420);
    pen.fillStyle = '#15181a';
    pen.beginPath();
    pen.ellipse(2700, 1900, 400, 130, 0, 0, 2 * Math.PI);
    pen.fill();
    pen.lineCap = 'butt';
    for (const [color, width] of [
      ['#b9bfc3', 620],
      ['#d7dbde', 360],
    ] as const) {
      pen.strokeStyle = color;
      pen.lineWidth = width;
      pen.beginPath();
      pen.moveTo(-200, 1000);
      pen.quadraticCurveTo(900, 900, 1500, 1750);
      pen.stroke();
    }
    return canvas.toDataURL('image/jpeg', 0.9).split(',')[1]!;
  });
  return { name: 'attic.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(data, 'base64') };
};
