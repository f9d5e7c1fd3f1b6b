import { formatQuantity } from '@airledger/engine';
import { columnNumber } from '../column-number.ts';
import { DataTable } from '../data-table.tsx';
import { type HandoverInput, handedOver } from '../handover-input.ts';
import { Changes } from './changes.tsx';
import { LeakageLimits } from './leakage-limits.tsx';
import { PartsSpecified } from './parts-specified.tsx';
import { Workmanship } from './workmanship.tsx';

/** What is to be built: changes, limits, parts, order of work, how to seal, airflows to set. */
export const Specification = (input: HandoverInput) => (
  <section>
    <h2 id="specification">Specification</h2>
    <Changes {...input} />
    <LeakageLimits {...input} />
    <PartsSpecified {...input} />
    <Workmanship />
    <AirflowsToSet {...input} />
  </section>
);

/** What balancing aims at, room by room. */
const AirflowsToSet = (input: HandoverInput) => {
  const { survey, accounts } = handedOver(input);
  const { units } = input;
  const air = (flow: number) => columnNumber(flow, 'airflow', units);
  const unit = units === 'ip' ? 'cfm' : 'L/s';
  const rows = survey.rooms.flatMap((room, r) => {
    const registers = survey.systems.flatMap(({ parts }) =>
      parts.filter(({ side, terminal }) => side === 'supply' && terminal?.room === room.id),
    );
    if (registers.length === 0) return [];
    return [
      [
        room.name,
        registers.map(({ terminal }) => terminal!.name).join(', '),
        air(accounts.heating.rooms[r]!.needed_m3s),
        air(accounts.cooling.rooms[r]!.needed_m3s),
      ],
    ];
  });
  return (
    <DataTable
      caption="Airflow to set at the registers of each room when balancing"
      columns={[
        { head: 'Room' },
        { head: 'Registers' },
        { head: 'Heating', unit, number: true },
        { head: 'Cooling', unit, number: true },
      ]}
      rows={rows}
      note={`Design airflow shared by room load and what the supply ducts of the room lose through their walls (common practice, no source). Where the two seasons differ by more than the tolerance, set the damper for the season that matters more and mark the other position. Fan: ${survey.systems.map(({ name, designAirflow_m3s: design }) => `${name} ${formatQuantity(design.heating, 'airflow', units)} in heating, ${formatQuantity(design.cooling, 'airflow', units)} in cooling`).join('; ')}.`}
    />
  );
};
