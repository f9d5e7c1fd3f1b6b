import { formatQuantity } from '@airledger/engine';
import { DataTable } from '../data-table.tsx';
import { type HandoverInput, handedOver } from '../handover-input.ts';

/** Blanks for what is measured when the work is done, beside what it should be. */
export const Readings = (input: HandoverInput) => {
  const { survey, accounts } = handedOver(input);
  const { units } = input;
  const cfm = (flow: number) => formatQuantity(flow, 'airflow', units);
  const rows = survey.systems.flatMap((system, s) => {
    const { name, designAirflow_m3s: design, airHandler, parts } = system;
    const flow = Math.min(design.heating, design.cooling);
    const standing = accounts.cooling.systems[s]!;
    const registers = parts.flatMap((part) => {
      if (part.side !== 'supply' || !part.terminal) return [];
      const room = accounts.cooling.rooms.find(({ room }) => room === part.terminal!.room)!;
      const many = parts.filter(
        ({ side, terminal }) => side === 'supply' && terminal?.room === room.room,
      ).length;
      const aim = `${cfm(room.needed_m3s)} in cooling${many > 1 ? ` for all ${many} of the room` : ''}`;
      return [[`Register ${part.terminal.name}, ${room.name}`, aim]];
    });
    return [
      [`${name}: leakage of supply side at 25 Pa`, `at most ${cfm(survey.code.supplyLeakageLimit * flow)}`],
      [`${name}: leakage of return side at 25 Pa`, `at most ${cfm(survey.code.returnLeakageLimit * flow)}`],
      [`${name}: fan flow`, cfm(design.cooling)],
      [
        `${name}: external static pressure`,
        `about ${formatQuantity(standing.externalStatic_Pa, 'pressure', units)}, at most ${formatQuantity(airHandler.fan.ratedExternalStatic_Pa, 'pressure', units)}`,
      ],
      ...registers,
    ];
  });
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
        columns={[
          { head: 'Reading' },
          { head: 'Should be' },
          { head: 'Read' },
          { head: 'By, date, instrument' },
        ]}
        rows={[...rows, ...doors].map(([what, aim]) => [what, aim, '', ''])}
      />
    </section>
  );
};
