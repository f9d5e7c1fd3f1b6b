import { useFindings } from './findings-store.ts';

/** What the pressures of the house do while its fan runs: return paths, infiltration, moisture, burners. */
export const FoundPressures = () => {
  const { pressures } = useFindings();
  if (pressures.length === 0) return null;
  return (
    <section aria-label="Pressures">
      <h3>Pressures while the fan runs</h3>
      <ul className="pressures">
        {pressures.map(({ kind, place, title, text, remedy, source }) => (
          <li key={`${kind} ${place}`} className={kind === 'combustion' ? 'heed' : undefined}>
            <strong>{title}.</strong> {text} {remedy} <span className="quiet">({source})</span>
          </li>
        ))}
      </ul>
    </section>
  );
};
