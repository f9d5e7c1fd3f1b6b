import type { Season, SeasonMonth } from '@airledger/engine';
import { usualTolerance_K } from '@airledger/engine/season/comfort';
import { monthNames } from '@airledger/report/month-names';
import type { Format } from '../figure/format.ts';
import { useFormat } from '../figure/use-format.ts';
import { Scrolls } from '../shell/scrolls.tsx';
import { chooseRoom } from '../state/actions.ts';
import { useBaseSurvey, useStateName } from '../state/select.ts';
import { MonthChart } from './month-chart.tsx';
import { useSeason } from './use-season.ts';
import { setWeather, useWeather } from './weather-store.ts';
import './season.css';

/** The year of the state in view: energy, cost, CO₂, months, comfort by room, ducts that sweat. */
export const SeasonArea = () => {
  const survey = useBaseSurvey();
  const state = useStateName();
  const { weather } = useWeather();
  const { found, working, failure, stop } = useSeason(survey, weather?.text);
  const take = async (files: FileList | null) => {
    const file = files?.[0];
    if (file) setWeather({ name: file.name, text: await file.text() });
  };
  return (
    <Scrolls className="sheet page-area season-area" label="Season">
      <header>
        <h2>Season</h2>
        <span className="quiet" role="status">
          {working ? 'Running the year …' : state}
        </span>
        {working && (
          <button type="button" className="plain-button" onClick={stop}>
            Stop
          </button>
        )}
        <label className="weather-file">
          Weather of a TMY3 file{' '}
          <input type="file" accept=".csv,.CSV,.tm3" onChange={(event) => take(event.target.files)} />
        </label>
        {weather && (
          <button type="button" className="link-button" onClick={() => setWeather(undefined)}>
            Without {weather.name}
          </button>
        )}
      </header>
      {failure && <p role="alert">The year can not be run: {failure}</p>}
      {found && <Year season={found} />}
    </Scrolls>
  );
};

const money = (amount: number): string => `$${Math.round(amount).toLocaleString('en-US')}`;
const hours = (value: number): string => Math.round(value).toLocaleString('en-US');
const ratio = (format: Format, part: number, whole: number): string =>
  whole > 0 ? format.full(part / whole, 'ratio') : '—';

const Year = ({ season }: { season: Season }) => {
  const format = useFormat();
  const { energy, distributionEfficiency } = season;
  const arrives = (share: number) => (Number.isFinite(share) ? format.full(share, 'ratio') : '—');
  return (
    <>
      <p className="quiet">{season.place}</p>
      <dl className="year-figures">
        <Item name="A year costs" value={money(season.cost)} />
        <Item name="CO₂" value={`${hours(season.emission_kg)} kg`} />
        {season.byFuel.map((use) => (
          <Item
            key={use.fuel}
            name={use.fuel === 'electricity' ? 'Electricity' : `As ${use.fuel}`}
            value={format.full(use.energy_J, use.fuel === 'electricity' ? 'electricity' : 'energy')}
          />
        ))}
        <Item name="Of heat arrives" value={arrives(distributionEfficiency.heating)} />
        <Item name="Of cooling arrives" value={arrives(distributionEfficiency.cooling)} />
        <Item name="Fans" value={format.full(energy.fan_J, 'electricity')} />
      </dl>
      <MonthChart months={season.months} />
      <Months months={season.months} />
      <Rooms season={season} />
      <Wet season={season} />
      <p className="quiet season-notes">
        {season.notes.join(' ')} Usual prices and ratings stand in where the job is silent: Survey, House,
        Year and prices. An estimate: wind, sun and people of the years to come are not known.
      </p>
    </>
  );
};

const Item = ({ name, value }: { name: string; value: string }) => (
  <div>
    <dt>{name}</dt>
    <dd>{value}</dd>
  </div>
);

const Months = ({ months }: { months: readonly SeasonMonth[] }) => {
  const format = useFormat();
  const energy = format.unit('energy');
  return (
    <table>
      <caption>
        Months; heat and cooling in {energy}, electricity in {format.unit('electricity')}
      </caption>
      <thead>
        <tr>
          <th scope="col">Month</th>
          {[
            'Outdoors',
            'Heat given',
            'Heat arrives',
            'Cooling given',
            'Cooling arrives',
            'Electricity',
            'Cost',
            'CO₂, kg',
          ].map((head) => (
            <th key={head} scope="col" className="number">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {months.map((month) => (
          <tr key={month.month}>
            <th scope="row">{monthNames[month.month - 1]}</th>
            <td className="number">{format.full(month.mean_C, 'temperature', 0)}</td>
            <td className="number">{format.bare(month.heatGiven_J, 'energy')}</td>
            <td className="number">{ratio(format, month.heatDelivered_J, month.heatGiven_J)}</td>
            <td className="number">{format.bare(month.coolingGiven_J, 'energy')}</td>
            <td className="number">{ratio(format, month.coolingDelivered_J, month.coolingGiven_J)}</td>
            <td className="number">{format.bare(month.byFuel_J.electricity, 'electricity')}</td>
            <td className="number">{money(month.cost)}</td>
            <td className="number">{hours(month.emission_kg)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};

const Rooms = ({ season }: { season: Season }) => {
  const format = useFormat();
  const worst = season.rooms.toSorted((a, b) => b.tooCold_h + b.tooWarm_h - a.tooCold_h - a.tooWarm_h);
  return (
    <table>
      <caption>
        Hours further than {format.full(usualTolerance_K, 'temperatureDifference')} from the set point
      </caption>
      <thead>
        <tr>
          <th scope="col">Room</th>
          {['Too cold', 'Too warm', 'Coldest', 'Warmest'].map((head) => (
            <th key={head} scope="col" className="number">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {worst.map((room) => (
          <tr key={room.room}>
            <th scope="row">
              <button type="button" className="link-button" onClick={() => chooseRoom(room.room)}>
                {room.name}
              </button>
            </th>
            <td className="number">{hours(room.tooCold_h)}</td>
            <td className="number">{hours(room.tooWarm_h)}</td>
            <td className="number">{format.full(room.coldest_C, 'temperature', 0)}</td>
            <td className="number">{format.full(room.warmest_C, 'temperature', 0)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};

/** Less than this is a moment after a start. */
const worthNaming_h = 1;

const Wet = ({ season }: { season: Season }) => {
  const wet = season.condensation
    .filter((surface) => surface.hours >= worthNaming_h)
    .toSorted((a, b) => b.hours - a.hours);
  if (wet.length === 0)
    return <p>No duct and no boot lies below the dew point around it for an hour of running.</p>;
  return (
    <table>
      <caption>Hours of running below the dew point of the air around</caption>
      <thead>
        <tr>
          <th scope="col">Duct</th>
          <th scope="col">Surface</th>
          <th scope="col" className="number">
            Hours
          </th>
        </tr>
      </thead>
      <tbody>
        {wet.map((surface) => (
          <tr key={`${surface.what}/${surface.system}/${surface.part}`}>
            <th scope="row">{surface.name}</th>
            <td>{surface.what}</td>
            <td className="number">{hours(surface.hours)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
};
