import { type Account, displayUnit, type Mode, modes, type RoomStanding } from '@airledger/engine';
import { columnNumber } from '../column-number.ts';
import { DataTable } from '../data-table.tsx';
import { FlowDiagram } from '../flow-diagram.tsx';
import { flowExtent, flowStreams } from '../flow-streams.ts';
import { capital, type HandoverInput, stateName } from '../handover-input.ts';

/** The account of both states side by side: drawn to one scale, then as a table. */
export const Accounts = (input: HandoverInput) => (
  <section>
    <h2 id="account">The account</h2>
    <p>
      Band: air to a room, to one scale in both drawings. Dashed box: air that the room lacks. Falling band:
      air lost from leaks. All while the fan runs.
    </p>
    {modes.map((mode) => (
      <ModeAccount key={mode} mode={mode} {...input} />
    ))}
  </section>
);

const ModeAccount = ({ mode, job, states, units }: HandoverInput & { readonly mode: Mode }) => {
  const drawn = states.map(({ id, accounts }) => ({
    id,
    name: stateName(job, id),
    account: accounts[mode],
    streams: flowStreams(accounts[mode]),
  }));
  const extent = Math.max(...drawn.map(({ streams }) => flowExtent(streams)));
  const air = displayUnit('airflow', units);
  const degrees = displayUnit('temperature', units);
  const rooms = drawn[0]!.account.rooms;
  return (
    <>
      <h3>{capital(mode)}</h3>
      {drawn.map(({ id, name, streams }) => (
        <figure key={id} className="drawing">
          <figcaption>
            {capital(mode)}, {name.toLowerCase()}
          </figcaption>
          <FlowDiagram
            title={`Air from the air handler to rooms and leaks in ${mode}, ${name.toLowerCase()}; the table below has the same figures`}
            streams={streams}
            extent_m3s={extent}
            units={units}
          />
        </figure>
      ))}
      <HeatTable mode={mode} drawn={drawn} units={units} />
      <DataTable
        caption={`Rooms in ${mode}: air needed and had, temperature it arrives with, temperature the room comes to`}
        groups={drawn.map(({ name }) => ({ head: name, span: 6 }))}
        columns={[
          { head: 'Room' },
          ...drawn.flatMap(() => [
            { head: 'Needs', unit: air, number: true },
            { head: 'Gets', unit: air, number: true },
            { head: '%', number: true },
            { head: 'Arrives', unit: degrees, number: true },
            { head: 'Room', unit: degrees, number: true },
            { head: 'Past door', unit: 'Pa', number: true },
          ]),
        ]}
        rows={rooms.map((room) => [
          room.name,
          ...drawn.flatMap(({ account }) => {
            const stands = account.rooms.find((one) => one.room === room.room);
            if (!stands) return Array.from({ length: 6 }, () => '—');
            return [
              columnNumber(stands.needed_m3s, 'airflow', units),
              columnNumber(stands.delivered_m3s, 'airflow', units),
              stands.needed_m3s > 0
                ? columnNumber(stands.delivered_m3s / stands.needed_m3s, 'ratio', units)
                : '—',
              columnNumber(stands.arrives_C, 'temperature', units, 0),
              columnNumber(stands.predicted_C, 'temperature', units),
              columnNumber(stands.pressureToHall_Pa, 'pressure', 'si'),
            ];
          }),
        ])}
        note="Past door: pressure of the room over the space behind its door, doors as surveyed."
      />
    </>
  );
};

type Drawn = { readonly name: string; readonly account: Account };

const causes = ['supply leak', 'supply conduction', 'return leak', 'return conduction'] as const;
const causeHeads: Readonly<Record<(typeof causes)[number], string>> = {
  'supply leak': 'Lost by supply leaks',
  'supply conduction': 'Lost through walls of supply ducts',
  'return leak': 'Brought in by return leaks',
  'return conduction': 'Lost through walls of return ducts',
};

/** Where the heat (or cold) that is asked of the equipment goes, both states beside each other. */
const HeatTable = ({
  mode,
  drawn,
  units,
}: {
  readonly mode: Mode;
  readonly drawn: readonly Drawn[];
  readonly units: HandoverInput['units'];
}) => {
  const sum = ({ account: { rooms } }: Drawn, value: (room: RoomStanding) => number) =>
    rooms.reduce((total, room) => total + value(room), 0);
  const by = (cause: (typeof causes)[number]) => (room: RoomStanding) =>
    room.losses.reduce((total, loss) => total + (loss.cause === cause ? loss.sensible_W : 0), 0);
  const row = (head: string, value: (room: RoomStanding) => number) => [
    head,
    ...drawn.map((one) => columnNumber(sum(one, value), 'power', units)),
  ];
  const present = causes.filter((cause) => drawn.some((one) => Math.abs(sum(one, by(cause))) > 0.5));
  return (
    <DataTable
      caption={`Sensible ${mode === 'heating' ? 'heat' : 'cooling'} asked of the equipment with every room at its set point, ${displayUnit('power', units)}`}
      columns={[{ head: '' }, ...drawn.map(({ name }) => ({ head: name, number: true }))]}
      rows={[
        row('Load of the rooms', (room) => room.load_W),
        row('Added to it by running fans and leaky ducts', (room) => room.forcedLoad_W),
        ...present.map((cause) => row(causeHeads[cause], by(cause))),
      ]}
      totals={[
        row(
          'Asked of the equipment, fan heat included',
          (room) => room.load_W + room.forcedLoad_W + room.ductLoss_W,
        ),
      ]}
    />
  );
};
