import {
  type Account,
  type Dimension,
  displayNumber,
  type PathLoss,
  type RoomStanding,
  type UnitSystem,
} from '@airledger/engine';
import { useState } from 'react';
import { useFormat } from '../figure/use-format.ts';
import { Segmented } from '../shell/segmented.tsx';
import { partName } from './room-provenance.ts';

type Kind = 'air' | 'heat' | 'pressure';

const kinds: Record<
  Kind,
  { words: string; of: (loss: PathLoss) => number; dimension: Dimension; digits: Record<UnitSystem, number> }
> = {
  air: { words: 'Air', of: (loss) => loss.air_m3s, dimension: 'airflow', digits: { ip: 0, si: 0 } },
  heat: { words: 'Heat', of: (loss) => loss.sensible_W, dimension: 'power', digits: { ip: 0, si: 0 } },
  pressure: {
    words: 'Pressure',
    of: (loss) => loss.drop_Pa,
    dimension: 'pressure',
    digits: { ip: 3, si: 1 },
  },
};

const most = 5;

/** The largest things that take air, heat or pressure on the way to a room. */
export const OnTheWay = ({ account, room }: { account: Account; room: RoomStanding }) => {
  const [kind, setKind] = useState<Kind>('air');
  const format = useFormat();
  const { of, dimension, digits } = kinds[kind];
  const losses = room.losses.filter((loss) => of(loss) > 0).toSorted((a, b) => of(b) - of(a));
  const shown = losses.slice(0, most);
  const rest = losses.slice(most).reduce((sum, loss) => sum + of(loss), 0);
  const largest = shown[0] ? of(shown[0]) : 1;
  // Small losses would all read as nothing in whole numbers.
  const decimals =
    kind === 'air' && displayNumber(largest, dimension, format.units) < 10 ? 1 : digits[format.units];
  return (
    <section className="card-part" aria-label="Lost on the way">
      <div className="card-head">
        <h3>Lost on the way</h3>
        <Segmented
          label="What is lost"
          choices={(Object.keys(kinds) as Kind[]).map((value) => ({ value, words: kinds[value].words }))}
          value={kind}
          onChange={setKind}
        />
      </div>
      {shown.length === 0 && <p className="quiet">Nothing to speak of.</p>}
      <ol className="losses">
        {shown.map((loss) => (
          <li key={`${loss.part} ${loss.cause} ${loss.what}`}>
            <span>{lossName(account, loss)}</span>
            <strong className="number">{format.bare(of(loss), dimension, decimals)}</strong>
            <span
              className="loss-bar"
              style={{ width: `${(100 * of(loss)) / largest}%` }}
              aria-hidden="true"
            />
          </li>
        ))}
      </ol>
      {shown.length > 0 && (
        <p className="quiet">
          {format.unit(dimension)}
          {kind !== 'pressure' && ', this room’s share'}
          {rest > 0 && ` · ${losses.length - most} smaller ones: ${format.bare(rest, dimension, decimals)}`}
        </p>
      )}
    </section>
  );
};

const lossName = (account: Account, loss: PathLoss): string => {
  const where = partName(account, loss.part);
  switch (loss.cause) {
    case 'supply leak':
    case 'return leak':
      return `${where}: ${loss.place ?? ''} leak`;
    case 'supply conduction':
    case 'return conduction':
      return `${where}: through its wall`;
    default:
      return `${where}: ${loss.what}`;
  }
};
