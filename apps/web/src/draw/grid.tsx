import { memo } from 'react';
import type { Size, View } from './view.ts';

/** Lines every 4 ft, or every metre; they thin out when the view is far. */
const spacing_m = { ip: 1.2192, si: 1 } as const;
const leastGap_px = 14;

export const Grid = memo(({ view, size, units }: { view: View; size: Size; units: 'ip' | 'si' }) => {
  let gap = spacing_m[units] * view.scale;
  while (gap < leastGap_px) gap *= 5;
  const lines: string[] = [];
  for (let x = ((view.x % gap) + gap) % gap; x < size.width; x += gap)
    lines.push(`M${x.toFixed(1)} 0V${size.height}`);
  for (let y = ((view.y % gap) + gap) % gap; y < size.height; y += gap)
    lines.push(`M0 ${y.toFixed(1)}H${size.width}`);
  return <path className="grid" d={lines.join('')} />;
});
