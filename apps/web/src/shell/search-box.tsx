import { type KeyboardEvent, useId, useMemo, useState } from 'react';
import { redo, undo } from '../document/document.ts';
import { takeTool } from '../draw/draw-store.ts';
import { toolList } from '../draw/tool-list.ts';
import { showTab } from '../forms/open-record.ts';
import { exportJob } from '../keeping/jobs.ts';
import { choosePart, chooseRoom, showArea } from '../state/actions.ts';
import { useBaseSurvey } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { switchFieldMode } from './field-mode.ts';
import { showPanel } from './panel-store.ts';
import { printHandover } from './print-handover.ts';
import { type Finding, search } from './search.ts';
import { chooseTheme } from './theme.ts';

const set = useWorkbench.setState;

const actions: readonly Finding[] = [
  { name: 'Draw the house', act: () => showArea('draw') },
  ...toolList.map(({ id, name, key }) => ({
    name: `Draw: ${name} (${key})`,
    act: () => {
      showArea('draw');
      takeTool(id);
    },
  })),
  { name: 'Show the survey', act: () => showArea('survey') },
  { name: 'Show the loads', act: () => showArea('loads') },
  { name: 'Show the air', act: () => showArea('air') },
  { name: 'Show the checks', act: () => showArea('checks') },
  {
    name: 'Show the account as a table',
    act: () => set({ area: 'air', accountOpen: true, accountAsTable: true }),
  },
  { name: 'Cooling day', act: () => set({ mode: 'cooling' }) },
  { name: 'Heating day', act: () => set({ mode: 'heating' }) },
  { name: 'Compare states side by side', act: () => set({ area: 'air', compared: true }) },
  { name: 'IP units', act: () => set({ units: 'ip' }) },
  { name: 'SI units', act: () => set({ units: 'si' }) },
  { name: 'Dark colours', act: () => chooseTheme('dark') },
  { name: 'Light colours', act: () => chooseTheme('light') },
  { name: 'Handover to print', act: () => void printHandover() },
  { name: 'New house', act: () => showPanel('new-house') },
  { name: 'Details of what is selected', act: () => showTab('details') },
  { name: 'What to measure next', act: () => showTab('measure') },
  { name: 'Words in plain language', act: () => showPanel('words') },
  { name: 'Field mode on or off', act: switchFieldMode },
  { name: 'Jobs', act: () => showPanel('jobs') },
  { name: 'Change history', act: () => showPanel('history') },
  { name: 'States and their changes', act: () => showPanel('states') },
  { name: 'Export with photos', act: () => void exportJob() },
  { name: 'Undo', act: undo },
  { name: 'Redo', act: redo },
].map((action) => ({ ...action, id: action.name, kind: 'action' }));

/** Finds a room, a run or an action by a few letters. */
export const SearchBox = () => {
  const list = useId();
  const [typed, setTyped] = useState('');
  const [shown, setShown] = useState(false);
  const [chosen, setChosen] = useState(0);
  const findings = useFindings();
  const found = useMemo(() => search(findings, typed), [findings, typed]);
  const act = (finding: Finding | undefined) => {
    if (!finding) return;
    finding.act();
    setTyped('');
    setShown(false);
    document.getElementById('work')?.focus();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step !== undefined) {
      setShown(true);
      setChosen((chosen + step + found.length) % Math.max(1, found.length));
    } else if (event.key === 'Enter') act(found[chosen]);
    else if (event.key === 'Escape') setShown(false);
    else return;
    event.preventDefault();
  };
  const open = shown && found.length > 0;
  return (
    <div className="search">
      <input
        id="search"
        type="search"
        role="combobox"
        autoComplete="off"
        aria-label="Find a room, a run or an action"
        aria-expanded={open}
        aria-controls={list}
        aria-activedescendant={open ? `${list}-${chosen}` : undefined}
        placeholder="Find anything  /"
        value={typed}
        onChange={(event) => {
          setTyped(event.target.value);
          setChosen(0);
          setShown(true);
        }}
        onFocus={() => setShown(true)}
        onBlur={() => setShown(false)}
        onKeyDown={onKeyDown}
      />
      <div id={list} role="listbox" aria-label="Found" hidden={!open}>
        {found.map((finding, i) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: the keys of this list are those of its combobox
          <div
            key={`${finding.kind} ${finding.id}`}
            id={`${list}-${i}`}
            role="option"
            tabIndex={-1}
            aria-selected={i === chosen}
            onPointerDown={(event) => event.preventDefault()}
            onClick={() => act(finding)}
          >
            <span>{finding.name}</span>
            <span className="quiet">{finding.kind}</span>
          </div>
        ))}
      </div>
    </div>
  );
};

const useFindings = (): readonly Finding[] => {
  const survey = useBaseSurvey();
  return useMemo(() => {
    if (!survey) return actions;
    const rooms = survey.rooms.map((room) => ({
      id: room.id,
      name: room.name,
      kind: 'room',
      act: () => chooseRoom(room.id),
    }));
    const parts = survey.systems
      .flatMap((system) => system.parts)
      .map((part) => ({
        id: part.id,
        name: part.name,
        kind: `${part.side} ${part.role}`,
        act: () => choosePart(part.id),
      }));
    return [...rooms, ...parts, ...actions];
  }, [survey]);
};
