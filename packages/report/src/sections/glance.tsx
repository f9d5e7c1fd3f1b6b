import { type Account, formatQuantity, modes, roomsOff, type UnitSystem, usedModes } from '@airledger/engine';
import { usualTolerance_K } from '@airledger/engine/season/comfort';
import { columnNumber } from '../column-number.ts';
import { DataTable } from '../data-table.tsx';
import { capital, type HandoverInput, handedOver, stateName } from '../handover-input.ts';
import { roomOffWords } from '../miss-words.ts';
import { howSure } from './how-sure.ts';

/** A room counts as short below this share of its need. */
const enough = 0.9;

/** What the document is about, how the house stands, and how sure that is. */
export const Glance = (input: HandoverInput) => {
  const { job, states, units } = input;
  const { survey } = handedOver(input);
  const show = (si: number) => formatQuantity(si, 'temperature', units);
  const { site, indoor } = survey;
  return (
    <section>
      <h2 id="glance">At a glance</h2>
      {states.map(({ id, accounts }) => (
        <p key={id}>
          <strong>{stateName(job, id)}:</strong>{' '}
          {modes.map((mode) => roomSentence(accounts[mode], units)).join(' ')}
        </p>
      ))}
      <DataTable
        caption="The house on its two design days"
        groups={states.map(({ id }) => ({ head: stateName(job, id), span: modes.length }))}
        columns={[
          { head: '' },
          ...states.flatMap(() => modes.map((mode) => ({ head: capital(mode), number: true }))),
        ]}
        rows={figures(units).map(({ head, figure }) => [
          head,
          ...states.flatMap(({ accounts }) => modes.map((mode) => figure(accounts[mode]))),
        ])}
        note={`Outdoors ${show(site.heatingDryBulb_C)} in heating (${site.heatingPercentile}) and ${show(site.coolingDryBulb_C)} in cooling (${site.coolingPercentile}), by ${site.designSource}; indoors ${show(indoor.heating_C)} and ${show(indoor.cooling_C)}.`}
      />
      <RoomsOff {...input} />
      <h3>How sure this is</h3>
      {howSure(states.map((state) => ({ name: stateName(job, state.id), survey: state.survey }))).map(
        (sentence) => (
          <p key={sentence}>{sentence}</p>
        ),
      )}
    </section>
  );
};

/** Rooms that the state that is handed over leaves out of comfort on a design day. */
const RoomsOff = (input: HandoverInput) => {
  const { job, units } = input;
  const { id, survey, accounts } = handedOver(input);
  const off = roomsOff(
    usedModes(survey).map((mode) => accounts[mode]),
    () => usualTolerance_K,
  );
  if (off.length === 0) return null;
  return (
    <>
      <h3>Rooms that stay out of comfort</h3>
      <p>
        {stateName(job, id)}, allowed {formatQuantity(usualTolerance_K, 'temperatureDifference', units, 1)}{' '}
        from the set point on the design days:
      </p>
      <ul>
        {off.map((room) => (
          <li key={`${room.room}/${room.mode}`}>{roomOffWords(room, units)}</li>
        ))}
      </ul>
    </>
  );
};

const roomSentence = ({ mode, rooms }: Account, units: UnitSystem): string => {
  const fed = rooms.filter((room) => room.needed_m3s > 0);
  const share = (room: (typeof fed)[number]) => room.delivered_m3s / room.needed_m3s;
  const short = fed.filter((room) => share(room) < enough);
  const worst = fed.toSorted((a, b) => share(a) - share(b))[0];
  if (!worst) return `In ${mode} no room needs air.`;
  const cfm = (flow: number) => formatQuantity(flow, 'airflow', units);
  const stands = `${worst.name} has ${cfm(worst.delivered_m3s)} of the ${cfm(worst.needed_m3s)} it needs and comes to ${formatQuantity(worst.predicted_C, 'temperature', units)}`;
  const { length } = short;
  if (length === 0)
    return `In ${mode} every room has at least ${enough * 100} % of the air it needs; least of all, ${stands}.`;
  return `In ${mode} ${length} of ${fed.length} rooms ${length === 1 ? 'has' : 'have'} under ${enough * 100} % of the air ${length === 1 ? 'it needs' : 'they need'}; shortest, ${stands}.`;
};

type Figure = { readonly head: string; readonly figure: (account: Account) => string };

const figures = (units: UnitSystem): readonly Figure[] => {
  const show = (si: number, dimension: Parameters<typeof formatQuantity>[1], digits?: number) =>
    formatQuantity(si, dimension, units, digits);
  const each = ({ systems }: Account, figure: (system: Account['systems'][number]) => string) =>
    systems.map(figure).join(' · ');
  const share = (part: number, whole: number) =>
    whole > 0 ? `${columnNumber(part / whole, 'ratio', units, 1)} %` : '—';
  return [
    { head: 'Load of the rooms, sensible', figure: ({ house }) => show(house.load_W, 'power') },
    { head: 'Lost on the way by ducts', figure: ({ house }) => show(house.ductLoss_W, 'power') },
    { head: 'Air at the fan', figure: (account) => each(account, (one) => show(one.fanFlow_m3s, 'airflow')) },
    {
      head: 'Lost by supply leaks, in operation',
      figure: (account) =>
        each(
          account,
          (one) => `${show(one.supplyLeak_m3s, 'airflow')}, ${share(one.supplyLeak_m3s, one.fanFlow_m3s)}`,
        ),
    },
    {
      head: 'Drawn in by return leaks, in operation',
      figure: (account) =>
        each(
          account,
          (one) => `${show(one.returnLeak_m3s, 'airflow')}, ${share(one.returnLeak_m3s, one.fanFlow_m3s)}`,
        ),
    },
    {
      head: 'External static pressure (rated)',
      figure: (account) =>
        each(
          account,
          (one) =>
            `${show(one.externalStatic_Pa, 'pressure', units === 'ip' ? 2 : 0)} (${show(one.ratedExternalStatic_Pa, 'pressure', units === 'ip' ? 2 : 0)})`,
        ),
    },
    {
      head: 'Heat that arrives in rooms',
      figure: (account) =>
        each(account, (one) => `${columnNumber(one.deliveryEfficiency, 'ratio', units)} %`),
    },
    {
      head: 'Equipment runs, of the design hour',
      figure: (account) => each(account, (one) => `${columnNumber(one.runFraction, 'ratio', units)} %`),
    },
    {
      head: 'Infiltration that fans and ducts add',
      figure: ({ house }) => show(house.inducedInfiltration_m3s, 'airflow'),
    },
  ];
};
