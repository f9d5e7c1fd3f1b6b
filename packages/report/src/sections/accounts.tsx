import { displayUnit, type Mode, modes } from '@airledger/engine';
import { columnNumber } from '../column-number.ts';
import { DataTable } from '../data-table.tsx';
import { FlowDiagram } from '../flow-diagram.tsx';
import { flowExtent, flowStreams } from '../flow-streams.ts';
import { capital, type HandoverInput, stateName } from '../handover-input.ts';

/** The account of both states side by side: drawn to one scale, then as a table. */
export const Accounts = (input: HandoverInput) => (
  <section>
    <h2 id="account">The account of air</h2>
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
