import type { Mode, RoomStanding } from '@airledger/engine';
import {
  airSplit,
  capital,
  heatSplit,
  heatWord,
  imbalanceSplit,
  type Split,
} from '@airledger/report/explanation-words';
import { useState } from 'react';
import { useFormat } from '../figure/use-format.ts';
import { isShort, standing } from '../plan/standing.ts';
import { Segmented } from '../shell/segmented.tsx';
import { noTrials, useWorkbench } from '../state/store.ts';

type Kind = 'air' | 'heat' | 'rooms';

/** Off its set point by this much, on the side that was to be kept away, a room lacks heat (or cooling), K. */
const felt_K = 0.5;

/** Why a room is short of air and of heat, and why others have more: causes that add up, each with a bar. */
export const Why = ({ room }: { room: RoomStanding }) => {
  const format = useFormat();
  const explained = useWorkbench((state) => state.explained);
  const mode = useWorkbench((state) => state.mode);
  const moving = useWorkbench((state) => state.moving !== undefined);
  const [kind, setKind] = useState<Kind>('air');
  const fresh = useWorkbench(
    (state) =>
      state.explained?.state === state.viewed &&
      state.explained.mode === state.mode &&
      state.explained.trials === (state.trials[state.viewed] ?? noTrials),
  );
  // While a handle moves the reasons stay, so that nothing jumps away under the hand.
  if (!moving && !isShort(standing(room)) && !lacksHeat(room, mode)) return null;
  const known = explained?.reasons.room.air.room === room.room ? explained : undefined;
  const splits = known
    ? {
        air: [airSplit(known.reasons.room.air, room.name, format.units)],
        heat: [heatSplit(known.reasons.room.heat, room.name, known.mode, format.units)],
        rooms: known.reasons.imbalances.map((one) => imbalanceSplit(one, known.mode, format.units)),
      }[kind]
    : undefined;
  return (
    <section
      className={fresh ? 'card-part' : 'card-part stale'}
      aria-label="Why it is short"
      aria-busy={!fresh}
    >
      <div className="card-head">
        <h3>Why</h3>
        <Segmented
          label="What it is short of"
          choices={[
            { value: 'air', words: 'Air' },
            { value: 'heat', words: capital(heatWord(mode)) },
            { value: 'rooms', words: 'Between rooms' },
          ]}
          value={kind}
          onChange={setKind}
        />
      </div>
      {!splits && <p className="quiet">Working out the causes …</p>}
      {splits?.length === 0 && (
        <p className="quiet">
          Every room that can be compared gets the same share of its air and {heatWord(mode)}.
        </p>
      )}
      {splits?.map((split) => (
        <SplitBars key={split.sentence} split={split} />
      ))}
    </section>
  );
};

const lacksHeat = ({ setPoint_C, predicted_C, needed_m3s }: RoomStanding, mode: Mode): boolean =>
  needed_m3s > 0 && (mode === 'heating' ? 1 : -1) * (setPoint_C - predicted_C) > felt_K;

/** A sentence, a bar for each part that shows in the figures, and what they add up to. */
const SplitBars = ({ split: { sentence, parts, whole, dimension } }: { split: Split }) => {
  const format = useFormat();
  const number = (value: number) => format.bare(value, dimension, 0).replace('-', '−');
  const lines = parts.filter(({ id, value }) => id === 'layout' || !/^−?0\b/.test(number(value)));
  const largest = Math.max(...lines.map(({ value }) => Math.abs(value)), Number.MIN_VALUE);
  return (
    <>
      <p>{sentence}</p>
      <ol className="losses">
        {lines.map(({ id, what, value }) => (
          <li key={id}>
            <span>{capital(what)}</span>
            <strong className="number">{number(value)}</strong>
            <span
              className={value < 0 ? 'loss-bar helps' : 'loss-bar'}
              style={{ width: `${(100 * Math.abs(value)) / largest}%` }}
              aria-hidden="true"
            />
          </li>
        ))}
      </ol>
      <p className="quiet">
        {dimension === 'ratio' ? '% of need' : format.unit(dimension)}, adds up to {number(whole.value)}
        {lines.some(({ value }) => value < 0) && '; what is below zero makes it less'}
      </p>
    </>
  );
};
