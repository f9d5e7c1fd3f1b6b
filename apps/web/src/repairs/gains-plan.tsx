import type { PlannedSet, RepairPlan } from '@airledger/job';
import { useMemo } from 'react';
import { useFormat } from '../figure/use-format.ts';
import { drawPlan } from '../plan/drawing.ts';
import { boxAround, boxCentre } from '../plan/geometry.ts';
import { closed } from '../plan/ribbon-shape.ts';
import { useSize } from '../plan/use-size.ts';
import { useAccount } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';

/** A change of this much can be felt, K. */
const felt_K = 0.3;

/** Who gains: each room with how far it was off and how far it is, the worse of the two design days. */
export const GainsPlan = ({ plan, shown }: { plan: RepairPlan; shown: PlannedSet }) => {
  const [frame, size] = useSize<HTMLDivElement>();
  const account = useAccount();
  const storey = useWorkbench((state) => state.storey);
  const format = useFormat();
  const drawing = useMemo(() => size && account && drawPlan(account, storey, size), [size, account, storey]);
  const repaired = new Set(
    plan.candidates.filter(({ id }) => shown.repairs.includes(id)).flatMap(({ where }) => where),
  );
  const worst = (drift_K: PlannedSet['standing']['drift_K'], room: string): number => {
    const at = plan.rooms.findIndex(({ id }) => id === room);
    return Math.max(...Object.values(drift_K).map((all) => Math.abs(all[at] ?? 0)));
  };
  return (
    <figure className="gains-plan">
      <div ref={frame} className="gains-plan-frame">
        {drawing && size && (
          <svg
            width={size.width}
            height={size.height}
            role="img"
            aria-label={`Who gains on storey ${storey}; the table below says the same.`}
          >
            {drawing.rooms.map(({ id, outline }) => {
              const gain = worst(plan.before.drift_K, id) - worst(shown.standing.drift_K, id);
              const word = gain > felt_K ? 'gains' : gain < -felt_K ? 'loses' : 'stays';
              return <path key={id} className={`gain-room ${word}`} d={closed(outline)} />;
            })}
            {drawing.ribbons.map(({ part, path }) => (
              <polyline
                key={part.id}
                className={
                  [...repaired].some((where) => where.endsWith(`/parts/${part.id}`))
                    ? 'gain-duct repaired'
                    : 'gain-duct'
                }
                points={path.map((point) => point.join()).join(' ')}
              />
            ))}
            {drawing.rooms.map(({ id, outline }) => {
              const [x, y] = boxCentre(boxAround(outline));
              const [before, after] = [plan.before, shown.standing].map(({ drift_K }) => worst(drift_K, id));
              return (
                <text key={id} className="gain-words" x={x} y={y}>
                  <tspan x={x}>{plan.rooms.find((room) => room.id === id)?.name}</tspan>
                  <tspan x={x} dy="1.2em">
                    {format.bare(before, 'temperatureDifference', 1)} →{' '}
                    {format.full(after, 'temperatureDifference', 1)}
                  </tspan>
                </text>
              );
            })}
          </svg>
        )}
      </div>
      <figcaption className="quiet">
        Off the set point on the worse design day, before → after. Filled: the room gains; dashed: it loses;
        thick ducts are worked on.
      </figcaption>
    </figure>
  );
};
