import type { GuidanceItem } from '@airledger/job';
import { useEffect } from 'react';
import type { Format } from '../figure/format.ts';
import { useFormat } from '../figure/use-format.ts';
import { goTo } from '../forms/open-record.ts';
import { Scrolls } from '../shell/scrolls.tsx';
import { useBaseSurvey } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { askGuidance, isCurrent, stopGuidance, useGuide } from './guide.ts';
import './guidance.css';

/** Time after the last edit before it is worked out anew, ms. */
const rest_ms = 1500;

/** What is still missing for a trustworthy answer, what matters most first. */
export const GuidancePanel = () => {
  const guide = useGuide();
  const job = useWorkbench((state) => state.job);
  const viewed = useWorkbench((state) => state.viewed);
  const mode = useWorkbench((state) => state.mode);
  const current = isCurrent(guide);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each edit, state or day begins a new rest
  useEffect(() => {
    if (isCurrent(useGuide.getState())) return;
    const timer = setTimeout(() => void askGuidance(), rest_ms);
    return () => {
      clearTimeout(timer);
      stopGuidance();
    };
  }, [job, viewed, mode]);
  return (
    <Scrolls className="sheet guidance" label="What to measure">
      <h2>What to measure</h2>
      <p className="quiet">
        What is not known well, in the order of what it does to the worst room and to the air of the house.
      </p>
      <Progress current={current} />
      {guide.failure && <p role="alert">This could not be worked out: {guide.failure}</p>}
      {guide.items && (
        <ol className={current ? undefined : 'older'}>
          {guide.items.map((item) => (
            <Item key={item.id} item={item} />
          ))}
        </ol>
      )}
      {guide.items?.length === 0 && <p>Nothing that is still open would move the answer by much.</p>}
    </Scrolls>
  );
};

const Progress = ({ current }: { current: boolean }) => {
  const progress = useGuide((state) => state.progress);
  if (progress === undefined)
    return current ? null : (
      <button type="button" className="plain-button" onClick={() => void askGuidance()}>
        Work it out
      </button>
    );
  return (
    <div className="guidance-progress">
      <progress aria-label="Houses tried" value={progress} max={1} />
      <button type="button" className="plain-button" onClick={stopGuidance}>
        Stop
      </button>
    </div>
  );
};

const Item = ({ item }: { item: GuidanceItem }) => {
  const format = useFormat();
  const room = useBaseSurvey()?.rooms.find(({ id }) => id === item.room)?.name;
  const path = item.paths[0];
  return (
    <li>
      <button
        type="button"
        className="guidance-item"
        disabled={path === undefined}
        onClick={() => path && goTo(path)}
      >
        <strong>{item.words}</strong>
        <span className="guidance-share">
          <span
            className="guidance-bar"
            style={{ width: `${Math.round(100 * item.share)}%` }}
            aria-hidden="true"
          />
        </span>
        <span>
          {Math.round(100 * item.share)} % of what is not known · {item.minutes} min
        </span>
        <span className="quiet">{movesWords(item, room, format)}</span>
        <span className="quiet">
          {item.how} ({item.source})
        </span>
      </button>
    </li>
  );
};

/** "moves Bedroom 3 by ± 20 cfm and ± 1.2 °F, the house by ± 60 cfm" */
const movesWords = ({ moves }: GuidanceItem, room: string | undefined, format: Format): string => {
  const house = `the house by ± ${format.full(moves.delivered_m3s, 'airflow', 0)}`;
  if (room === undefined) return `moves ${house}`;
  const air = format.full(moves.shortage_m3s, 'airflow', 0);
  const temperature = format.full(moves.predicted_K, 'temperatureDifference');
  return `moves ${room} by ± ${air} and ± ${temperature}, ${house}`;
};
