import { showArea } from '../state/actions.ts';
import { useBaseSurvey } from '../state/select.ts';
import { noTrials, useWorkbench } from '../state/store.ts';
import { applyTrials } from '../trial/trials.ts';
import { cautionOf, useCautions } from './caution-list.ts';
import { isSealing } from './sealing-in-hand.ts';
import './help.css';

/** One line for one who seals ducts in a house that has, or may have, a burner inside. */
export const SealingCaution = () => {
  const readOn = () => {
    useCautions.setState({ wanted: true });
    showArea('checks');
  };
  const combustionInside = useBaseSurvey()?.house.combustionInside;
  const caution = cautionOf('combustion');
  if (!caution || combustionInside === false) return null;
  return (
    <p className="caution" role="note">
      <strong>{caution.title}.</strong>{' '}
      {combustionInside
        ? 'A burner here takes its air from the house.'
        : 'Nobody has said yet whether a burner here takes its air from the house.'}{' '}
      <button type="button" className="link-button" onClick={readOn}>
        Before any work
      </button>
    </p>
  );
};

/** The same line, while the state in view or what is tried on it closes leaks. */
export const CautionWhileSealing = () => {
  const job = useWorkbench((state) => state.job);
  const viewed = useWorkbench((state) => state.viewed);
  const trials = useWorkbench((state) => state.trials[state.viewed] ?? noTrials);
  const began = job?.surveys[job.states[0]!.id];
  const base = job?.surveys[viewed];
  if (!began || !base || !isSealing(began, applyTrials(base, trials))) return null;
  return <SealingCaution />;
};
