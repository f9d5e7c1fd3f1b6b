import type { Measure } from './plan-words.ts';

const family = 'system-ui, "Segoe UI", Roboto, "Helvetica Neue", "DejaVu Sans", sans-serif';
let pen: CanvasRenderingContext2D | null | undefined;

/** Width of a text as the plan writes it, px. */
export const measureText: Measure = (text, bold) => {
  pen ??= document.createElement('canvas').getContext('2d');
  if (!pen) return text.length * 7.4;
  pen.font = `${bold ? 700 : 400} 12.5px ${family}`;
  return pen.measureText(text).width;
};
