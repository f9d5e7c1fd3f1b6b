import { canRedo, canUndo, redo, undo } from '../document/document.ts';
import { putBack } from '../state/actions.ts';
import { useAccount, useReading } from '../state/select.ts';
import { noTrials, useWorkbench } from '../state/store.ts';
import './status-line.css';

/** How the account stands, and what is tried on it. */
export const StatusLine = () => {
  const reading = useReading();
  const account = useAccount();
  const failure = useWorkbench((state) => state.failure);
  const trials = useWorkbench((state) => state.trials[state.viewed] ?? noTrials);
  const redoable = useWorkbench(canRedo);
  const undoable = useWorkbench(canUndo);
  const tried = Object.keys(trials).length;
  return (
    <footer className="status">
      {failure ? (
        <span role="alert" className="status-failure">
          Not solved: {failure}
        </span>
      ) : (
        account && (
          <span>
            Account closes to {residual(account.ledger.residual)}
            {!account.air.solution.converged && ' · the air did not settle'}
          </span>
        )
      )}
      <span role="status">
        {tried > 0 && `${tried === 1 ? 'One value' : `${tried} values`} tried, not saved`}
      </span>
      {tried > 0 && (
        <button type="button" className="link-button" onClick={putBack}>
          Put all back
        </button>
      )}
      {undoable && (
        <button type="button" className="link-button" onClick={undo}>
          Undo
        </button>
      )}
      {redoable && (
        <button type="button" className="link-button" onClick={redo}>
          Redo
        </button>
      )}
      {reading && (
        <span className="status-time">both design days in {Math.max(1, Math.round(reading.took_ms))} ms</span>
      )}
    </footer>
  );
};

const residual = (of: { air: number; sensible: number; latent: number }): string =>
  Math.max(of.air, of.sensible, of.latent).toFixed(3);
