import { displayUnit, formatQuantity, modes } from '@airledger/engine';
import { columnNumber } from '../column-number.ts';
import { DataTable } from '../data-table.tsx';
import { capital, type HandoverInput, handedOver } from '../handover-input.ts';
import { nameOf } from '../place-names.ts';
import { registerFlows } from '../register-flows.ts';
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
    <h3>Airflows</h3>
    <AirflowsToSet {...input} />
  </section>
);

/** What balancing aims at, register by register, beside what the account expects before the dampers are touched. */
const AirflowsToSet = (input: HandoverInput) => {
  const { survey, accounts } = handedOver(input);
  const { units } = input;
  const name = nameOf(survey);
  const air = (flow: number) => columnNumber(flow, 'airflow', units);
  const unit = displayUnit('airflow', units);
  const flows = modes.map((mode) => registerFlows(accounts[mode]));
  return (
    <DataTable
      caption="Airflow to set at each register when balancing"
      groups={[{ head: '', span: 1 }, ...modes.map((mode) => ({ head: capital(mode), span: 2 }))]}
      columns={[
        { head: 'Register at the end of' },
        { head: 'Room' },
        ...modes.flatMap(() => [
          { head: 'To set', unit, number: true },
          { head: 'Expected', unit, number: true },
        ]),
      ]}
      rows={flows[0]!.map(({ part, register, room }) => [
        register,
        name(room),
        ...flows.flatMap((each) => {
          const { aim_m3s, flow_m3s } = each.find((one) => one.part === part)!;
          return [air(aim_m3s), air(flow_m3s)];
        }),
      ])}
      note={`To set: the design airflow shared by room load and by what the supply ducts of the room lose through their walls (common practice, no source). Expected: by the account, with dampers as specified. Where the two seasons differ by more than the tolerance, set the damper for the season that matters more and mark the other position. Fan: ${survey.systems.map(({ name: system, designAirflow_m3s: design }) => `${system} ${formatQuantity(design.heating, 'airflow', units)} in heating, ${formatQuantity(design.cooling, 'airflow', units)} in cooling`).join('; ')}.`}
    />
  );
};
