import type { Account } from '@airledger/engine';
import { type Job, outlineOf, storeyOfZone } from '@airledger/job';
import { useEffect, useId, useLayoutEffect, useMemo, useRef } from 'react';
import { useFormat } from '../figure/use-format.ts';
import { HatchPattern } from '../plan/hatch-pattern.tsx';
import { standing } from '../plan/standing.ts';
import { useSize } from '../plan/use-size.ts';
import { useWorkbench } from '../state/store.ts';
import { zoomToAll } from './commands.ts';
import { useDraw } from './draw-store.ts';
import { DrawnDuct } from './drawn-duct.tsx';
import { DrawnRoom, DrawnZone, GhostRoom } from './drawn-rooms.tsx';
import { Grid } from './grid.tsx';
import { Hand } from './hand.tsx';
import { onDrawingKey } from './keys.ts';
import { Marks } from './marks.tsx';
import { plainRibbon, ribbonsOf } from './ribbons-of.ts';
import { partsOn, roomsOn, zonesOn } from './scene.ts';
import { isSame, type Selected, useSelection } from './selection.ts';
import { sheetTransform } from './sheet.ts';
import { UnderlayImage } from './underlay-image.tsx';
import { usePointer } from './use-pointer.ts';

/** Trunks over the runs they feed, supplies over returns. */
const layer = (side: string, role: string): number =>
  (side === 'return' ? 0 : 4) + ({ run: 0, bypass: 1, trunk: 2, plenum: 3 }[role] ?? 0);

/** The house to scale, to draw on: one storey, its ducts as ribbons of the account in view. */
export const Canvas = ({ job, account }: { job: Job; account: Account | undefined }) => {
  const [frame, size] = useSize<HTMLDivElement>();
  const svg = useRef<SVGSVGElement>(null);
  const storey = useWorkbench((state) => state.storey);
  const jobId = useWorkbench((state) => state.jobId);
  const units = useWorkbench((state) => state.units);
  const view = useDraw((state) => state.view);
  const field = useDraw((state) => state.field);
  const selection = useSelection();
  const format = useFormat();
  const hatch = useId();
  const pointer = usePointer(svg, size !== undefined && view !== undefined);

  useLayoutEffect(() => useDraw.setState({ size }), [size]);
  const measured = size !== undefined;
  // biome-ignore lint/correctness/useExhaustiveDependencies: another house or storey is shown whole
  useEffect(() => {
    if (measured) zoomToAll();
  }, [jobId, storey, measured]);

  const rooms = roomsOn(job, storey);
  const smaller_m = useMemo(() => {
    const points = rooms.flatMap(outlineOf);
    if (points.length === 0) return 10;
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    return Math.min(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys));
  }, [rooms]);
  const ribbons = useMemo(() => ribbonsOf(account, smaller_m), [account, smaller_m]);
  const chosen = (item: Selected): boolean => selection.some((each) => isSame(each, item));
  const bandOf = (id: string) =>
    standing(account?.rooms.find((each) => each.room === id) ?? { needed_m3s: 0, delivered_m3s: 0 }).band;

  return (
    <div className={field ? 'canvas field' : 'canvas'} ref={frame}>
      {size && view && (
        <svg
          ref={svg}
          // biome-ignore lint/a11y/noNoninteractiveTabindex: a drawing board is worked on by keys
          tabIndex={0}
          role="application"
          aria-label="Drawing board"
          aria-describedby="draw-hint"
          width={size.width}
          height={size.height}
          onKeyDown={onDrawingKey}
          {...pointer}
        >
          <HatchPattern id={hatch} />
          <Grid view={view} size={size} units={units} />
          <g transform={sheetTransform(view)}>
            <UnderlayImage job={job} storey={storey} />
            {job.rooms
              .filter((room) => Math.abs((room.storey ?? 1) - storey) === 1 && outlineOf(room).length >= 3)
              .map((room) => (
                <GhostRoom key={room.id} room={room} />
              ))}
            {rooms.map((room) => (
              <DrawnRoom
                key={room.id}
                room={room}
                band={bandOf(room.id)}
                chosen={chosen({ kind: 'room', id: room.id })}
              />
            ))}
            {zonesOn(job, storey).map((zone) => (
              <DrawnZone
                key={zone.id}
                zone={zone}
                beyond={storeyOfZone(job, zone) !== storey}
                chosen={chosen({ kind: 'zone', id: zone.id })}
              />
            ))}
            {partsOn(job, storey)
              .toSorted((a, b) => layer(a.part.side, a.part.role) - layer(b.part.side, b.part.role))
              .map(({ part }) => (
                <DrawnDuct
                  key={part.id}
                  part={part}
                  stretches={ribbons.get(part.id) ?? plainRibbon}
                  chosen={chosen({ kind: 'part', id: part.id })}
                  hatch={hatch}
                />
              ))}
          </g>
          <Marks
            job={job}
            storey={storey}
            view={view}
            selection={selection}
            account={account}
            format={format}
            units={units}
            field={field}
          />
          <Hand view={view} units={units} />
        </svg>
      )}
    </div>
  );
};
