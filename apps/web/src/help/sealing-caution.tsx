import { useBaseSurvey } from '../state/select.ts';
import { cautionOf } from './caution-list.ts';
import './help.css';

/** One line where sealing is tried or specified: what has to be known of burners before. */
export const SealingCaution = () => {
  const survey = useBaseSurvey();
  const caution = cautionOf('combustion');
  if (!survey || !caution) return null;
  const { combustionInside } = survey.house;
  const here = combustionInside
    ? 'This house has a burner that takes its air from the house. '
    : combustionInside === undefined
      ? 'Nobody has said yet whether a burner takes its air from this house. '
      : '';
  return (
    <p className="caution" role="note">
      <strong>{caution.title}.</strong> {here}
      {caution.text.split('. ').slice(0, 2).join('. ').replace(/\.?$/, '.')}
    </p>
  );
};
