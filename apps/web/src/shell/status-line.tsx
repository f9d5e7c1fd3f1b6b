import { canRedo, canUndo, redo, undo } from '../document/document.ts';
import { closesWords } from '../figure/closes-words.ts';
import { useAccount, useReading } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { KeptStatus, TriedStatus } from './kept-status.tsx';
import { UpdateStatus } from './update-status.tsx';
import './status-line.css';

/** How the account stands, whether the work is kept, and what is tried on it. */
export const StatusLine = () => {
  const reading = useReading();
  const account = useAccount();
  const failure = useWorkbench((state) => state.failure);
  const redoable = useWorkbench(canRedo);
  const undoable = useWorkbench(canUndo);
  return (
    <footer className="status">
      {failure ? (
        <span role="alert" className="status-failure">
          Not solved: {failure}
        </span>
      ) : (
        account && (
          <span>
            Account closes {closesWords(worst(account.ledger.residual))}
            {!account.air.solution.converged && ' · the air did not settle'}
          </span>
        )
      )}
      <KeptStatus />
      <TriedStatus />
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
      <UpdateStatus />
      {reading && (
        <span
          className="status-time"
          data-edit={reading.edit}
          data-took-ms={reading.took_ms}
          data-whole-ms={reading.whole_ms}
        >
          solved in {Math.max(1, Math.round(reading.took_ms))} ms
        </span>
      )}
    </footer>
  );
};

const worst = (residual: { air: number; sensible: number; latent: number }): number =>
  Math.max(residual.air, residual.sensible, residual.latent);
