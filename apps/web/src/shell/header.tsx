import type { Mode } from '@airledger/engine';
import { useFormat } from '../figure/use-format.ts';
import { useBaseSurvey } from '../state/select.ts';
import { type Theme, type UnitSystem, useWorkbench } from '../state/store.ts';
import { FileMenu } from './file-menu.tsx';
import { showPanel } from './panel-store.ts';
import { SearchBox } from './search-box.tsx';
import { Segmented } from './segmented.tsx';
import { chooseTheme } from './theme.ts';
import './header.css';

/** Which house, which state, which design day; finding things; how they are shown. */
export const Header = () => {
  const name = useWorkbench((state) => state.job?.name);
  return (
    <header className="header">
      <div className="house">
        <h1>{name ?? 'Airledger'}</h1>
        <HouseInBrief />
      </div>
      {name !== undefined && (
        <>
          <StateSwitch />
          <ModeSwitch />
          <SearchBox />
        </>
      )}
      <div className="settings">
        <UnitSwitch />
        <ThemeSwitch />
        <FileMenu />
      </div>
    </header>
  );
};

const HouseInBrief = () => {
  const survey = useBaseSurvey();
  const format = useFormat();
  if (!survey) return null;
  const { storeys, conditionedFloorArea_m2 } = survey.house;
  const floors = storeys === 1 ? 'one storey' : `${storeys} storeys`;
  return (
    <p className="quiet">
      {floors} · {format.full(conditionedFloorArea_m2, 'area')} · {survey.site.place}
    </p>
  );
};

const StateSwitch = () => {
  const states = useWorkbench((state) => state.job!.states);
  const viewed = useWorkbench((state) => state.viewed);
  const compared = useWorkbench((state) => state.compared);
  const choices = [
    ...states.map(({ id, name }) => ({ value: `state ${id}`, words: capital(name) })),
    { value: 'compare', words: 'Side by side' },
  ];
  const choose = (value: string) =>
    value === 'compare'
      ? useWorkbench.setState({ compared: true, area: 'air' })
      : useWorkbench.setState({ compared: false, viewed: value.slice('state '.length) });
  return (
    <div className="states">
      {states.length > 1 && (
        <Segmented
          label="State of the house"
          choices={choices}
          value={compared ? 'compare' : `state ${viewed}`}
          onChange={choose}
        />
      )}
      <button
        type="button"
        className="plain-button"
        aria-label="States and their changes"
        title="States of the house, what each changes, and a new one"
        onClick={() => showPanel('states')}
      >
        States …
      </button>
    </div>
  );
};

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const ModeSwitch = () => (
  <Segmented<Mode>
    label="Design day"
    choices={[
      { value: 'cooling', words: 'Cooling' },
      { value: 'heating', words: 'Heating' },
    ]}
    value={useWorkbench((state) => state.mode)}
    onChange={(mode) => useWorkbench.setState({ mode })}
  />
);

const UnitSwitch = () => (
  <Segmented<UnitSystem>
    label="Units"
    choices={[
      { value: 'ip', words: 'IP' },
      { value: 'si', words: 'SI' },
    ]}
    value={useWorkbench((state) => state.units)}
    onChange={(units) => useWorkbench.setState({ units })}
  />
);

const ThemeSwitch = () => {
  const theme = useWorkbench((state) => state.theme);
  const other: Theme = theme === 'dark' ? 'light' : 'dark';
  return (
    <button
      type="button"
      className="plain-button round"
      aria-label={`Switch to ${other}`}
      title={`Switch to ${other}`}
      onClick={() => chooseTheme(other)}
    >
      <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true">
        <circle cx="9" cy="9" r="7" fill="none" stroke="currentColor" strokeWidth="1.6" />
        <path d="M9 2a7 7 0 0 1 0 14z" fill="currentColor" />
      </svg>
    </button>
  );
};
