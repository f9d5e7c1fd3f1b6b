import type { Account, RoomStanding } from '@airledger/engine';
import { Figure } from '../figure/figure.tsx';
import type { Format } from '../figure/format.ts';
import { useFormat } from '../figure/use-format.ts';
import { useWorkbench } from '../state/store.ts';
import { figureKey, type Ranges } from '../worker/ranges.ts';
import { type RoomFigure, roomProvenance } from './room-provenance.ts';

type Line = {
  readonly figure: RoomFigure;
  readonly label: string;
  readonly value: string;
  readonly range?: string;
};

const noRanges: Ranges = {};

/** The figures that say how a room stands. Each can be asked where it comes from. */
export const RoomFigures = ({ account, room }: { account: Account; room: RoomStanding }) => {
  const format = useFormat();
  const ranges = useWorkbench((state) => state.ranges ?? noRanges);
  return (
    <dl className="room-figures">
      {linesOf(room, ranges, format).map(({ figure, label, value, range }) => (
        <div key={figure} className={`figure-${figure}`}>
          <dt>{label}</dt>
          <dd>
            <Figure from={() => roomProvenance(account, room, figure, format, range)}>{value}</Figure>
            {range && <span className="range"> ({range})</span>}
          </dd>
        </div>
      ))}
    </dl>
  );
};

const linesOf = (room: RoomStanding, ranges: Ranges, format: Format): Line[] => {
  const range = (name: keyof RoomStanding, write: (value: number) => string) => {
    const ends = ranges[figureKey('room', room.room, name)];
    if (!ends) return undefined;
    const [low, high] = ends.map(write);
    return low === high ? undefined : `${low}–${high}`;
  };
  const air = (value: number) => format.bare(value, 'airflow', 0);
  return [
    { figure: 'needed', label: 'Needs', value: format.full(room.needed_m3s, 'airflow', 0) },
    {
      figure: 'delivered',
      label: 'Gets',
      value: format.full(room.delivered_m3s, 'airflow', 0),
      range: range('delivered_m3s', air),
    },
    {
      figure: 'predicted',
      label: 'On the design day',
      value: format.full(room.predicted_C, 'temperature'),
      range: range('predicted_C', (value) => format.bare(value, 'temperature')),
    },
    {
      figure: 'arrives',
      label: 'Air arrives at',
      value: format.full(room.arrives_C, 'temperature'),
      range: range('arrives_C', (value) => format.bare(value, 'temperature')),
    },
    {
      figure: 'load',
      label: 'Load with its ducts',
      value: format.full(room.load_W + room.ductLoss_W, 'power'),
    },
    {
      figure: 'ductLoss',
      label: 'its ducts',
      value: format.full(room.ductLoss_W, 'power'),
      range: range('ductLoss_W', (value) => format.bare(value, 'power')),
    },
    {
      figure: 'pressure',
      label: 'Pressure over the next room',
      value: format.roomPressure(room.pressureToHall_Pa),
    },
  ];
};
