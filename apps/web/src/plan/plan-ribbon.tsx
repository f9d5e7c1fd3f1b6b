import type { DrawnRibbon } from './drawing.ts';
import { open } from './ribbon-shape.ts';
import { Spot } from './spot.tsx';

/** A duct part as a ribbon: as wide as the air in it, paler as its heat or cold is lost; returns are hatched. */
export const PlanRibbon = ({
  ribbon,
  label,
  chosen,
  reachable,
  hatch,
}: {
  ribbon: DrawnRibbon;
  label: string;
  chosen: boolean;
  reachable: boolean;
  /** Id of the hatch pattern of this drawing. */
  hatch: string;
}) => {
  const { part, shape, pieces, path } = ribbon;
  return (
    <Spot
      id={`part/${part.id}`}
      label={label}
      chosen={chosen}
      reachable={reachable}
      className={`ribbon ${part.side}`}
    >
      <path className="reach" d={open(path)} />
      <path className="ribbon-edge" d={shape.outline} />
      {shape.pieces.map((d, i) => (
        <path
          key={d}
          d={d}
          className="ribbon-piece"
          style={
            part.side === 'return'
              ? { fill: `url(#${hatch})` }
              : {
                  fill: `color-mix(in oklab, var(--ribbon) ${Math.round(100 * pieces[i]!.strength)}%, var(--ribbon-faded))`,
                }
          }
        />
      ))}
      <path className="ribbon-ring" d={shape.outline} />
    </Spot>
  );
};
