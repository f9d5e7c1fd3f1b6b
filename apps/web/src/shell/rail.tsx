import type { Mode, RoomStanding, Survey } from '@airledger/engine';
import { useTypedJob } from '../document/document.ts';
import type { Format } from '../figure/format.ts';
import { useFormat } from '../figure/use-format.ts';
import { planInBrief } from '../repairs/plan-in-brief.ts';
import { useRepairs } from '../repairs/repairs-store.ts';
import { useWeather } from '../season/weather-store.ts';
import { showArea } from '../state/actions.ts';
import { useBaseSurvey, useReading } from '../state/select.ts';
import { type Area, useWorkbench, type Workbench } from '../state/store.ts';
import { surveyInBrief } from '../survey/known.ts';
import { isWhole, type Reading } from '../worker/read-survey.ts';
import './rail.css';

const order: readonly { area: Area; name: string }[] = [
  { area: 'draw', name: 'Draw' },
  { area: 'survey', name: 'Survey' },
  { area: 'loads', name: 'Loads' },
  { area: 'air', name: 'Air' },
  { area: 'tests', name: 'Tests' },
  { area: 'repairs', name: 'Repairs' },
  { area: 'balance', name: 'Balance' },
  { area: 'season', name: 'Season' },
  { area: 'checks', name: 'Checks' },
];

/** The order of the job, each step with the one figure that says how it stands. */
export const Rail = () => {
  const area = useWorkbench((state) => state.area);
  const mode = useWorkbench((state) => state.mode);
  const reading = useReading();
  const base = useBaseSurvey();
  const read = useWorkbench(readingsTaken);
  const job = useTypedJob();
  const state = useWorkbench(({ viewed }) => viewed);
  const weather = useWeather((loaded) => loaded.weather?.text);
  const repairs = useRepairs((plan) => planInBrief(plan, { job, state, weather }));
  const format = useFormat();
  if (!reading || !base) return null;
  const figures = {
    ...standings(reading, base, mode, format),
    tests: read === 0 ? 'no reading yet' : `${read} read`,
    repairs,
    season: 'run a year',
  };
  return (
    <nav className="rail" aria-label="Work areas">
      {order.map((step) => (
        <button
          key={step.area}
          type="button"
          aria-current={step.area === area ? 'page' : undefined}
          onClick={() => showArea(step.area)}
        >
          <strong>{step.name}</strong>
          <span>{figures[step.area]}</span>
        </button>
      ))}
    </nav>
  );
};

/** How many readings were taken in the state in view. */
const readingsTaken = ({ typed, viewed, job }: Workbench): number =>
  (typed?.readings ?? []).filter(({ state = job?.states[0]?.id }) => state === viewed).length;

const standings = (
  reading: Reading,
  base: Survey,
  mode: Mode,
  format: Format,
): Partial<Record<Area, string>> => {
  const account = reading.accounts[mode];
  if (!account) return {};
  const { rooms, house, survey } = account;
  const short = rooms.reduce((sum, room) => sum + Math.max(0, room.needed_m3s - room.delivered_m3s), 0);
  const failed = reading.checks.filter((check) => check.result === 'fail').length;
  const open = reading.checks.filter((check) => check.result === 'cannot tell').length;
  return {
    draw: `${survey.rooms.length} ${survey.rooms.length === 1 ? 'room' : 'rooms'}`,
    survey: surveyInBrief(base),
    loads: format.full(house.load_W, 'power'),
    air:
      format.bare(short, 'airflow', 0) === '0'
        ? 'every room has its air'
        : `${format.full(short, 'airflow', 0)} short`,
    balance: shares(rooms, format),
    // Until the other design day is in, the count is not the last word.
    checks: `${failed === 0 && open === 0 ? `all ${reading.checks.length} hold` : `${failed} fail, ${open} open`}${isWhole(reading) ? '' : ' …'}`,
  };
};

/** From the room with the least share of its air to the one with the most. */
const shares = (rooms: readonly RoomStanding[], format: Format): string => {
  const all = rooms
    .filter(({ needed_m3s, delivered_m3s }) => needed_m3s > 0 && delivered_m3s > 0)
    .map(({ needed_m3s, delivered_m3s }) => delivered_m3s / needed_m3s);
  if (all.length === 0) return 'no air';
  return `${format.bare(Math.min(...all), 'ratio', 0)} to ${format.full(Math.max(...all), 'ratio', 0)}`;
};
