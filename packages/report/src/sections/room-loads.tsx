import { type Account, displayUnit, type LoadCause, loadCautions, modes } from '@airledger/engine';
import { Fragment } from 'react';
import { columnNumber } from '../column-number.ts';
import { DataTable } from '../data-table.tsx';
import { capital, type HandoverInput, handedOver, stateName } from '../handover-input.ts';
import { nameOf } from '../place-names.ts';

const heads: Readonly<Record<LoadCause, string>> = {
  transmission: 'Walls, glass, roof',
  sun: 'Sun',
  ground: 'Ground',
  partition: 'Partitions',
  infiltration: 'Infiltration',
  ventilation: 'Ventilation',
  'people and appliances': 'People, appliances',
};
const causes = Object.keys(heads) as readonly LoadCause[];

/** Loads room by room, by cause, for both design days, in the state handed over. */
export const RoomLoads = (input: HandoverInput) => {
  const { id, accounts } = handedOver(input);
  return (
    <section>
      <h2 id="loads">Loads room by room</h2>
      <p>
        For the house {stateName(input.job, id).toLowerCase()}. Duct losses are those of these very ducts, run
        by run; they come from the account and are no percentage. Forced is what running fans and leaky ducts
        add to the room itself: air drawn through the envelope, a warmer or colder buffer space.
      </p>
      {modes.map((mode) => (
        <Fragment key={mode}>
          <LoadTable account={accounts[mode]} {...input} />
          <LoadCautions account={accounts[mode]} />
        </Fragment>
      ))}
    </section>
  );
};

/** Where the load method does not cover this house well. */
const LoadCautions = ({ account: { survey, loads, mode } }: { readonly account: Account }) => {
  const name = nameOf(survey);
  const cautions = loadCautions(survey, loads);
  if (cautions.length === 0) return null;
  return (
    <>
      <p>Look twice at these {mode} loads:</p>
      <ul>
        {cautions.map(({ room, text }) => (
          <li key={`${room} ${text}`}>
            {room !== undefined && <strong>{name(room)}: </strong>}
            {text}
          </li>
        ))}
      </ul>
    </>
  );
};

const LoadTable = ({ account, units }: HandoverInput & { readonly account: Account }) => {
  const { loads, rooms, mode, house } = account;
  const unit = displayUnit('power', units);
  const heat = (power: number) => columnNumber(power, 'power', units);
  const forced_W = rooms.reduce((sum, room) => sum + room.forcedLoad_W, 0);
  const present = causes.filter((cause) =>
    loads.lines.some((line) => line.cause === cause && line.sensible_W !== 0),
  );
  const part = (cause: LoadCause, room?: string) =>
    loads.lines
      .filter((line) => line.cause === cause && (room === undefined || line.room === room))
      .reduce((sum, line) => sum + line.sensible_W, 0);
  return (
    <DataTable
      caption={`${capital(mode)} load, ${unit}`}
      columns={[
        { head: 'Room' },
        ...present.map((cause) => ({ head: heads[cause], number: true })),
        { head: 'Sensible', number: true },
        { head: 'Forced', number: true },
        { head: 'Ducts', number: true },
        { head: 'Asked of equipment', number: true },
        ...(mode === 'cooling' ? [{ head: 'Latent', number: true }] : []),
      ]}
      rows={rooms.map((room) => [
        room.name,
        ...present.map((cause) => heat(part(cause, room.room))),
        heat(room.load_W),
        heat(room.forcedLoad_W),
        heat(room.ductLoss_W),
        heat(room.load_W + room.forcedLoad_W + room.ductLoss_W),
        ...(mode === 'cooling' ? [heat(room.latent_W)] : []),
      ])}
      totals={[
        [
          'House',
          ...present.map((cause) => heat(part(cause))),
          heat(house.load_W),
          heat(forced_W),
          heat(house.ductLoss_W),
          heat(house.load_W + forced_W + house.ductLoss_W),
          ...(mode === 'cooling' ? [heat(loads.latent_W)] : []),
        ],
      ]}
    />
  );
};
