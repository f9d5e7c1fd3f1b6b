import type { Survey } from '@airledger/engine';
import { useEffect, useState } from 'react';
import { Segmented } from '../shell/segmented.tsx';
import { letGo, tryValue } from '../state/actions.ts';
import { useAccount, useBaseSurvey } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { type Handle, handleGroups, partHandles, type SwitchHandle } from '../trial/handles.ts';
import { applyTrials } from '../trial/trials.ts';
import { Slider } from './slider.tsx';

/** Handles on the room's runs, on what lies upstream and on its doors. */
export const TryIt = ({ room }: { room: string }) => {
  const base = useBaseSurvey();
  const trials = useWorkbench((state) => state.trials[state.viewed]);
  const part = useWorkbench((state) => state.part);
  const account = useAccount();
  const [picked, setPicked] = useState('');
  const survey = base && applyTrials(base, trials ?? {});
  const groups = survey ? groupsInHand(survey, room, part) : [];
  const surveyed = new Map(
    (base ? groupsInHand(base, room, part) : [])
      .flatMap((group) => group.handles)
      .map((handle) => [handle.id, handle.value]),
  );
  // A ribbon that is chosen on the plan brings its own handles to the front.
  useEffect(() => setPicked(part ?? ''), [part]);
  if (!account || groups.length === 0) return null;
  const group = groups.find((each) => each.id === picked) ?? groups[0]!;
  return (
    <section className="card-part" aria-label="Try it">
      <div className="card-head">
        <h3>Try it</h3>
        <span className="quiet">leaks at 25 Pa</span>
      </div>
      {groups.length > 1 && (
        <div className="try-groups">
          <Segmented
            label="What to try"
            choices={groups.map(({ id, name }) => ({ value: id, words: name }))}
            value={group.id}
            onChange={setPicked}
          />
        </div>
      )}
      {group.handles.map((handle) => (
        <OneHandle key={handle.id} handle={handle} surveyed={surveyed.get(handle.id)} />
      ))}
    </section>
  );
};

const groupsInHand = (survey: Survey, room: string, part: string | undefined) => {
  const groups = handleGroups(survey, room);
  const chosen = survey.systems.flatMap((system) => system.parts).find((each) => each.id === part);
  if (!chosen || groups.some((group) => group.id === chosen.id)) return groups;
  return [{ id: chosen.id, name: chosen.name, handles: partHandles(chosen) }, ...groups];
};

const OneHandle = ({ handle, surveyed }: { handle: Handle; surveyed: number | boolean | undefined }) =>
  handle.measure === 'open or shut' ? (
    <DoorSwitch handle={handle} />
  ) : (
    <Slider handle={handle} surveyed={typeof surveyed === 'number' ? surveyed : handle.value} />
  );

const DoorSwitch = ({ handle }: { handle: SwitchHandle }) => (
  <div className="door-switch">
    <span>{handle.label}</span>
    <Segmented
      label={handle.label}
      choices={[
        { value: 'shut', words: 'Shut' },
        { value: 'open', words: 'Open' },
      ]}
      value={handle.value ? 'open' : 'shut'}
      onChange={(value) => {
        tryValue(handle.id, value === 'open');
        letGo();
      }}
    />
  </div>
);
