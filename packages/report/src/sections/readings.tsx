import { formatQuantity } from '@airledger/engine';
import { DataTable } from '../data-table.tsx';
import { type HandoverInput, handedOver } from '../handover-input.ts';
import { nameOf } from '../place-names.ts';
import { registerFlows } from '../register-flows.ts';

/** Blanks for what is measured when the work is done, beside what it should be. */
export const Readings = (input: HandoverInput) => {
  const { survey, accounts } = handedOver(input);
  const { units } = input;
  const name = nameOf(survey);
  const cfm = (flow: number) => formatQuantity(flow, 'airflow', units);
  const rows = survey.systems.flatMap((system, s) => {
    const { designAirflow_m3s: design, airHandler } = system;
    const flow = Math.min(design.heating, design.cooling);
    const standing = accounts.cooling.systems[s]!;
    return [
      [
        `${system.name}: leakage of supply side at 25 Pa`,
        `at most ${cfm(survey.code.supplyLeakageLimit * flow)}`,
      ],
      [
        `${system.name}: leakage of return side at 25 Pa`,
        `at most ${cfm(survey.code.returnLeakageLimit * flow)}`,
      ],
      [`${system.name}: fan flow`, cfm(design.cooling)],
      [
        `${system.name}: external static pressure`,
        `about ${formatQuantity(standing.externalStatic_Pa, 'pressure', units)}, at most ${formatQuantity(airHandler.fan.ratedExternalStatic_Pa, 'pressure', units)}`,
      ],
    ];
  });
  const registers = registerFlows(accounts.cooling).map(({ register, room, aim_m3s }) => [
    `Register at the end of ${register} (${name(room)})`,
    `${cfm(aim_m3s)} in cooling`,
  ]);
  const doors = survey.doors
    .filter(({ open }) => !open)
    .map(({ id, between }) => [
      `Pressure across shut door ${id.replace(/^door-/, '').replaceAll('-', ' ')}`,
      between.every((place) => survey.rooms.some((room) => room.id === place))
        ? 'at most 3 Pa'
        : 'to be noted',
    ]);
  return (
    <section>
      <h2 id="readings">Readings at handover</h2>
      <DataTable
        caption="To be filled in on site"
        toFillIn
        columns={[
          { head: 'Reading' },
          { head: 'Should be' },
          { head: 'Read' },
          { head: 'By, date, instrument' },
        ]}
        rows={[...rows, ...registers, ...doors].map(([what, aim]) => [what, aim, '', ''])}
      />
    </section>
  );
};
