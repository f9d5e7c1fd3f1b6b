import type { RoomStanding } from '@airledger/engine';
import { useFormat } from '../figure/use-format.ts';
import { isShort, standing } from '../plan/standing.ts';
import { noTrials, useWorkbench } from '../state/store.ts';

/** Why a room is short of air: causes that add up to its shortage. */
export const Why = ({ room }: { room: RoomStanding }) => {
  const format = useFormat();
  const explained = useWorkbench((state) => state.explained);
  const moving = useWorkbench((state) => state.moving !== undefined);
  const fresh = useWorkbench(
    (state) =>
      state.explained?.state === state.viewed &&
      state.explained.mode === state.mode &&
      state.explained.trials === (state.trials[state.viewed] ?? noTrials),
  );
  // While a handle moves the reasons stay, so that nothing jumps away under the hand.
  if (!moving && !isShort(standing(room))) return null;
  const known = explained?.explanation.room === room.room ? explained.explanation : undefined;
  const air = (value: number) => format.bare(value, 'airflow', 0);
  const causes = (known?.causes ?? []).filter((cause) => air(cause.air_m3s) !== '0');
  const lines = known
    ? [
        ...causes,
        { id: 'layout', what: 'size and length of its ducts, and the fan', air_m3s: known.layout_m3s },
      ]
    : [];
  const largest = Math.max(...lines.map((line) => Math.abs(line.air_m3s)), 1e-9);
  return (
    <section
      className={fresh ? 'card-part' : 'card-part stale'}
      aria-label="Why it is short"
      aria-busy={!fresh}
    >
      <div className="card-head">
        <h3>Why</h3>
        <span className="quiet">{format.unit('airflow')}</span>
      </div>
      {known ? (
        <>
          <ol className="losses">
            {lines.map((line) => (
              <li key={line.id}>
                <span>{capital(line.what)}</span>
                <strong className="number">{air(line.air_m3s).replace('-', '−')}</strong>
                <span
                  className={line.air_m3s < 0 ? 'loss-bar helps' : 'loss-bar'}
                  style={{ width: `${(100 * Math.abs(line.air_m3s)) / largest}%` }}
                  aria-hidden="true"
                />
              </li>
            ))}
          </ol>
          <p className="quiet">
            adds up to {air(known.shortage_m3s)}
            {lines.some((line) => line.air_m3s < 0) && '; what is below zero helps the room'}
          </p>
        </>
      ) : (
        <p className="quiet">Working out the causes …</p>
      )}
    </section>
  );
};

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
