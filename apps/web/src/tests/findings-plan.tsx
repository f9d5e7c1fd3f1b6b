import type { Calibration, LeakFinding } from '@airledger/engine/calibrate/calibration';
import { leakGroupName } from '@airledger/report/calibration-words';
import { rangeText } from '@airledger/report/range-text';
import { useMemo } from 'react';
import { useFormat } from '../figure/use-format.ts';
import { type DrawnRibbon, drawPlan } from '../plan/drawing.ts';
import { boxAround, boxCentre, type Point, pointAlong } from '../plan/geometry.ts';
import { closed } from '../plan/ribbon-shape.ts';
import { useSize } from '../plan/use-size.ts';
import { useAccount } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { useFindings } from './findings-store.ts';

/** Leaks and restrictions on the plan: a disc as large as the leak is thought to be, a ring as large as it may be. */
export const FindingsPlan = ({ calibration }: { calibration: Calibration }) => {
  const [frame, size] = useSize<HTMLDivElement>();
  const account = useAccount();
  const storey = useWorkbench((state) => state.storey);
  const { asked } = useFindings();
  const format = useFormat();
  const drawing = useMemo(() => size && account && drawPlan(account, storey, size), [size, account, storey]);
  if (!asked) return null;
  const most = Math.max(...calibration.groups.map(({ flow25_m3s }) => flow25_m3s.high));
  const radius = (flow: number) => 3 + 21 * Math.sqrt(flow / most);
  const restricted = new Set(
    calibration.restrictions.filter(({ defectProbability }) => defectProbability > 0.5).map(({ run }) => run),
  );
  const marks = (drawing?.ribbons ?? []).flatMap((ribbon) => {
    const group = calibration.groups.find(({ id, kind }) =>
      kind === 'supply plenum'
        ? ribbon.part.side === 'supply' && ribbon.part.role === 'plenum'
        : id === ribbon.part.id,
    );
    return group ? [{ ribbon, group, at: placeOnPlan(ribbon, calibration.leaks) }] : [];
  });
  const named = marks
    .toSorted((a, b) => b.group.flow25_m3s.middle - a.group.flow25_m3s.middle)
    .slice(0, 4)
    .map(({ group }) => group.id);
  return (
    <figure className="findings-plan">
      <div ref={frame} className="findings-plan-frame">
        {drawing && size && (
          <svg
            width={size.width}
            height={size.height}
            role="img"
            aria-label={`Leaks and restricted runs on the plan of storey ${storey}; the tables below say the same.`}
          >
            {drawing.rooms.map(({ id, outline }) => (
              <path key={id} className="found-room" d={closed(outline)} />
            ))}
            {drawing.rooms.map(({ id, outline }) => {
              const [x, y] = boxCentre(boxAround(outline));
              return (
                <text key={id} className="found-room-name" x={x} y={y}>
                  {asked.survey.rooms.find((room) => room.id === id)?.name}
                </text>
              );
            })}
            {drawing.ribbons.map(({ part, path }) => (
              <polyline
                key={part.id}
                className={restricted.has(part.id) ? 'found-duct restricted' : 'found-duct'}
                points={path.map((point) => point.join()).join(' ')}
              />
            ))}
            {marks.map(({ ribbon, group, at: [x, y] }) => (
              <g
                key={group.id + ribbon.part.id}
                className={`found-leak ${group.knowledge.replace(' ', '-')}`}
              >
                <title>
                  {`${leakGroupName(asked.survey, group)}: ${rangeText(group.flow25_m3s, 'airflow', format.units)} at 25 Pa, ${group.knowledge}`}
                </title>
                <circle className="found-may" cx={x} cy={y} r={radius(group.flow25_m3s.high)} />
                <circle className="found-is" cx={x} cy={y} r={radius(group.flow25_m3s.middle)} />
                {named.includes(group.id) && (
                  <text x={x + radius(group.flow25_m3s.high) + 3} y={y + 4}>
                    {rangeText(group.flow25_m3s, 'airflow', format.units)}
                  </text>
                )}
              </g>
            ))}
          </svg>
        )}
      </div>
      <figcaption className="quiet">
        Disc: the leak as it is thought to be, at 25 Pa; ring: as large as it may be (95 %); dashed ring: not
        measured. Thick dashed duct: restricted, more likely than not.
      </figcaption>
    </figure>
  );
};

/** A group sits where the larger of its leaks does: at the air-handler end, along, or at the far end of its duct. */
const placeOnPlan = ({ part, path }: DrawnRibbon, leaks: readonly LeakFinding[]): Point => {
  const own = leaks
    .filter((leak) => leak.part === part.id)
    .toSorted((a, b) => b.flow25_m3s.middle - a.flow25_m3s.middle)[0];
  const share = /boot/.test(own?.kind ?? '') ? 0.95 : own?.kind === 'takeoff' ? 0.08 : 0.5;
  return pointAlong(path, share).point;
};
