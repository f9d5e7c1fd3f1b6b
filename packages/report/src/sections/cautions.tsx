import cautions from '../../data/cautions.json' with { type: 'json' };
import { type HandoverInput, handedOver } from '../handover-input.ts';

/** What can hurt people or void the work; first, because it comes before any work. */
export const Cautions = (input: HandoverInput) => {
  const { survey } = handedOver(input);
  const { combustionInside, yearBuilt } = survey.house;
  const here: Readonly<Record<string, string | undefined>> = {
    combustion: combustionInside ? 'This house has a burner that takes its air from the house.' : undefined,
    asbestos:
      yearBuilt !== undefined && yearBuilt < 1990 ? `This house was built in ${yearBuilt}.` : undefined,
  };
  return (
    <section>
      <h2 id="cautions">Cautions</h2>
      <ul>
        {cautions.map(({ id, title, text }) => (
          <li key={id}>
            <strong>{title}.</strong> {here[id] && <strong>{here[id]} </strong>}
            {text}
          </li>
        ))}
      </ul>
    </section>
  );
};
