import { useReading } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { isWhole } from '../worker/read-survey.ts';
import './checks.css';

/** Says that checks stand on the design day in view alone, until the other day of the same edit is in. */
export const SoFar = () => {
  const reading = useReading();
  const mode = useWorkbench((state) => state.mode);
  if (!reading || isWhole(reading)) return null;
  return <span className="quiet so-far">by the {mode} day so far</span>;
};
