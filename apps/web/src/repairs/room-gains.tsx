import type { PlannedSet, RepairPlan } from '@airledger/job';
import { signed } from '../figure/format.ts';
import { useFormat } from '../figure/use-format.ts';

/** How far each room is off its set point on the design days, before and after. */
export const RoomGains = ({ plan, shown }: { plan: RepairPlan; shown: PlannedSet }) => {
  const format = useFormat();
  const modes = Object.keys(plan.before.drift_K) as ('heating' | 'cooling')[];
  const off = (drift: number): string => signed(format.full(drift, 'temperatureDifference', 1));
  return (
    <table className="repair-rooms">
      <caption>Rooms off their set point on the design days</caption>
      <thead>
        <tr>
          <th scope="col">Room</th>
          {modes.flatMap((mode) => [
            <th key={`${mode}-before`} scope="col">
              {mode}, before
            </th>,
            <th key={`${mode}-after`} scope="col">
              after
            </th>,
          ])}
        </tr>
      </thead>
      <tbody>
        {plan.rooms.map(({ id, name }, at) => (
          <tr key={id}>
            <th scope="row">{name}</th>
            {modes.flatMap((mode) => [
              <td key={`${mode}-before`}>{off(plan.before.drift_K[mode]![at]!)}</td>,
              <td key={`${mode}-after`}>{off(shown.standing.drift_K[mode]![at]!)}</td>,
            ])}
          </tr>
        ))}
      </tbody>
    </table>
  );
};
