import { useFormat } from '../figure/use-format.ts';
import { bands } from './standing.ts';

/** What shades, ribbons and drops mean. */
export const PlanLegend = () => {
  const format = useFormat();
  return (
    <div className="legend">
      <span>Share of the air a room needs:</span>
      {bands.map((band) => (
        <span key={band.id} className="legend-entry">
          <svg width="14" height="14" aria-hidden="true">
            <rect width="14" height="14" className={`band-${band.id}`} />
          </svg>
          {band.words}
        </span>
      ))}
      <span className="legend-entry">
        <svg width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
          <path className="drop-shape" d="M7 1C9 5 12 6 12 9A5 4.5 0 0 1 2 9C2 6 5 5 7 1Z" />
        </svg>
        {format.unit('airflow')} lost · hollow: drawn in · ribbon width: air that passes
      </span>
    </div>
  );
};
