import type { Job } from '@airledger/job';
import { useWorkbench } from '../state/store.ts';

/** The storeys of the house, and one more above and below to draw on. */
export const Storeys = ({ job }: { job: Job }) => {
  const storey = useWorkbench((state) => state.storey);
  const drawn = job.rooms.map((room) => room.storey ?? 1);
  const least = Math.max(-1, Math.min(...drawn, storey) - 1);
  const most = Math.min(6, Math.max(...drawn, storey) + 1);
  const storeys = Array.from({ length: most - least + 1 }, (_, i) => most - i);
  return (
    <label className="draw-option">
      Storey
      <select
        value={storey}
        onChange={(event) => useWorkbench.setState({ storey: Number(event.target.value) })}
      >
        {storeys.map((each) => (
          <option key={each} value={each}>
            {each < 1 ? `${each} (basement)` : each}
            {drawn.includes(each) ? '' : ' – empty'}
          </option>
        ))}
      </select>
    </label>
  );
};
