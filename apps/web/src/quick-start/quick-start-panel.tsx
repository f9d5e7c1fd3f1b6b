import { stations } from '@airledger/engine/climate/stations';
import { type Job, newJob, type QuickStart, quickStartProblem } from '@airledger/job';
import { useId, useState } from 'react';
import { showTab } from '../forms/open-record.ts';
import { withUnit } from '../forms/typed-quantity.ts';
import { keepNew } from '../keeping/jobs.ts';
import { Panel } from '../shell/panel.tsx';
import { closePanel } from '../shell/panel-store.ts';
import { useWorkbench } from '../state/store.ts';
import { patientEngine } from '../worker/engine-client.ts';
import './quick-start.css';

type Form = {
  readonly name: string;
  readonly floorArea: string;
  readonly storeys: string;
  readonly yearBuilt: string;
  readonly station: string;
  readonly ductPlace: QuickStart['ductPlace'];
  readonly rooms: string;
  readonly equipment: QuickStart['equipment'];
};

const remembered = 'airledger-station';

const blank = (): Form => ({
  name: 'New house',
  floorArea: useWorkbench.getState().units === 'si' ? '140 m²' : '1500 ft²',
  storeys: '1',
  yearBuilt: '1985',
  station: localStorage.getItem(remembered) ?? 'houston',
  ductPlace: 'attic',
  rooms: '8',
  equipment: 'furnace with air conditioner',
});

const ductPlaces: Record<QuickStart['ductPlace'], string> = {
  attic: 'in the attic',
  basement: 'in the basement',
  crawlspace: 'in the crawlspace',
  inside: 'inside, below the ceiling',
};

const kinds: readonly QuickStart['equipment'][] = [
  'furnace with air conditioner',
  'heat pump',
  'furnace',
  'air conditioner',
];

/** A short form that gives a whole plausible house, or an empty one to fill in by tables. */
export const QuickStartPanel = () => {
  const units = useWorkbench((state) => state.units);
  const [form, setForm] = useState(blank);
  const [problem, setProblem] = useState<string>();
  const [busy, setBusy] = useState(false);
  const put = (change: Partial<Form>) => {
    setForm({ ...form, ...change });
    setProblem(undefined);
  };
  const start: QuickStart = {
    ...form,
    name: form.name.trim() || 'New house',
    floorArea: withUnit(form.floorArea, 'area', units),
    storeys: Number(form.storeys),
    yearBuilt: wholeNumber(form.yearBuilt),
    rooms: wholeNumber(form.rooms),
    units,
  };
  const open = async (make: () => Promise<Job>, what: string) => {
    setBusy(true);
    try {
      await keepNew(await make(), what);
      localStorage.setItem(remembered, form.station);
      closePanel();
    } catch (error) {
      setProblem(error instanceof Error ? error.message : String(error));
      setBusy(false);
    }
  };
  const begin = () => {
    const fault = quickStartProblem(start);
    if (fault !== undefined) return setProblem(fault);
    return open(() => patientEngine.quickStart(start), 'Quick start').then(() => {
      useWorkbench.setState({ area: 'air', compared: false });
      showTab('room');
    });
  };
  const beginWithOne = (area: 'survey' | 'draw') =>
    open(async () => oneRoom(start), 'Begun with one room').then(() => useWorkbench.setState({ area }));
  return (
    <Panel title="New house">
      <form
        className="quick-start"
        onSubmit={(event) => {
          event.preventDefault();
          void begin();
        }}
      >
        <p className="quiet">
          A whole house from a few figures. Everything else is filled in and marked as assumed, to be
          corrected where it matters.
        </p>
        <div className="quick-start-fields">
          <Text label="Name" value={form.name} onChange={(name) => put({ name })} />
          <Text label="Floor area" value={form.floorArea} onChange={(floorArea) => put({ floorArea })} />
          <Text
            label="Year built"
            value={form.yearBuilt}
            numeric
            onChange={(yearBuilt) => put({ yearBuilt })}
          />
          <Text label="Rooms besides halls" value={form.rooms} numeric onChange={(rooms) => put({ rooms })} />
          <Pick
            label="Storeys"
            value={form.storeys}
            options={{ 1: 'one', 2: 'two' }}
            onChange={(storeys) => put({ storeys })}
          />
          <Pick
            label="Climate station"
            value={form.station}
            options={Object.fromEntries(stations.map(({ id, name, zone }) => [id, `${name} (${zone})`]))}
            onChange={(station) => put({ station })}
          />
          <Pick
            label="Ducts"
            value={form.ductPlace}
            options={ductPlaces}
            onChange={(ductPlace) => put({ ductPlace: ductPlace as Form['ductPlace'] })}
          />
          <Pick
            label="Equipment"
            value={form.equipment}
            options={Object.fromEntries(kinds.map((kind) => [kind, kind]))}
            onChange={(equipment) => put({ equipment: equipment as Form['equipment'] })}
          />
        </div>
        {problem && (
          <p className="field-problem" role="alert">
            {problem}
          </p>
        )}
        <div className="quick-start-buttons">
          <button type="submit" className="plain-button main-button" disabled={busy}>
            {busy ? 'Building the house …' : 'Build the house'}
          </button>
          <button
            type="button"
            className="plain-button"
            disabled={busy}
            onClick={() => void beginWithOne('draw')}
          >
            Begin with one room, draw it
          </button>
          <button
            type="button"
            className="plain-button"
            disabled={busy}
            onClick={() => void beginWithOne('survey')}
          >
            Begin with one room, fill in tables
          </button>
        </div>
      </form>
    </Panel>
  );
};

/** Anything but digits is no number, so that the form's own check says so. */
const wholeNumber = (text: string): number => (/^\d+$/.test(text.trim()) ? Number(text) : Number.NaN);

const oneRoom = ({ name, station, units = 'ip' }: QuickStart): Job =>
  newJob(
    {
      name,
      station,
      room: {
        id: 'living',
        name: 'Living room',
        use: 'living',
        floor: { corner_m: [0, 0], width_m: 4.8768, depth_m: 4.8768 },
      },
    },
    { units, known: 'assumed' },
  );

const Text = ({
  label,
  value,
  numeric,
  onChange,
}: {
  label: string;
  value: string;
  numeric?: boolean;
  onChange: (value: string) => void;
}) => {
  const id = useId();
  return (
    <div>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        inputMode={numeric ? 'numeric' : undefined}
        value={value}
        onChange={(event) => onChange(event.target.value)}
      />
    </div>
  );
};

const Pick = ({
  label,
  value,
  options,
  onChange,
}: {
  label: string;
  value: string;
  options: Readonly<Record<string, string>>;
  onChange: (value: string) => void;
}) => {
  const id = useId();
  return (
    <div>
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onChange(event.target.value)}>
        {Object.entries(options).map(([key, words]) => (
          <option key={key} value={key}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
};
