import type { DrawnDrop } from './drawing.ts';
import { Unsaid } from './unsaid.tsx';

/** Air that falls out at a leak, its area to scale; hollow where air is drawn in. */
export const PlanDrop = ({ drop }: { drop: DrawnDrop }) => {
  const { radius: r } = drop;
  const [x, y] = drop.at;
  return (
    <Unsaid className={drop.inward ? 'drop inward' : 'drop'}>
      <path
        className="drop-shape"
        d={`M${x} ${y - r * 1.35}C${x + r * 0.45} ${y - r * 0.55} ${x + r} ${y - r * 0.2} ${x + r} ${y + r * 0.25}A${r} ${r} 0 0 1 ${x - r} ${y + r * 0.25}C${x - r} ${y - r * 0.2} ${x - r * 0.45} ${y - r * 0.55} ${x} ${y - r * 1.35}Z`}
      />
    </Unsaid>
  );
};
