import type { Account, RoomStanding } from '@airledger/engine';
import type { Format } from '../figure/format.ts';
import { useFormat } from '../figure/use-format.ts';
import { isShort, standing } from '../plan/standing.ts';
import { Scrolls } from '../shell/scrolls.tsx';
import { useAccount } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { OnTheWay } from './on-the-way.tsx';
import { RoomChecks } from './room-checks.tsx';
import { RoomFigures } from './room-figures.tsx';
import { TryIt } from './try-it.tsx';
import { Why } from './why.tsx';
import './room.css';

/** The room in hand: how it stands and why, what could be done, what is lost on the way, what is asked of it. */
export const RoomCard = () => {
  const account = useAccount();
  const id = useWorkbench((state) => state.room);
  const format = useFormat();
  const room = account?.rooms.find((each) => each.room === id) ?? account?.rooms[0];
  if (!account || !room) return null;
  return (
    <Scrolls className="sheet room-card" label={`Room: ${room.name}`}>
      <h2>{room.name}</h2>
      <p className={isShort(standing(room)) ? 'room-standing short' : 'room-standing'}>
        {standingWords(account, room, format)}
      </p>
      <RoomFigures account={account} room={room} />
      <Why room={room} />
      <TryIt room={room.room} />
      <OnTheWay account={account} room={room} />
      <RoomChecks account={account} room={room.room} />
    </Scrolls>
  );
};

/** "short 56 cfm · 4.9 °F too warm" */
const standingWords = (account: Account, room: RoomStanding, format: Format): string => {
  const stands = standing(room);
  const air =
    stands.share === undefined
      ? 'needs no air of its own'
      : isShort(stands)
        ? `short ${format.full(stands.short_m3s, 'airflow', 0)}`
        : stands.share > 1.05
          ? `${format.full(-stands.short_m3s, 'airflow', 0)} more than it needs`
          : 'has its air';
  const off = room.predicted_C - room.setPoint_C;
  const temperature =
    Math.abs(off) < 0.15
      ? 'at its set point'
      : `${format.full(Math.abs(off), 'temperatureDifference')} ${off > 0 ? 'too warm' : 'too cold'}`;
  const thermostat = account.survey.systems.some((system) => system.thermostatRoom === room.room)
    ? ' · thermostat'
    : '';
  return `${air} · ${temperature}${thermostat}`;
};
