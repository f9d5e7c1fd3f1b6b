import type { Account } from '@airledger/engine';
import { memo, useDeferredValue, useMemo } from 'react';
import { closesWords } from '../figure/closes-words.ts';
import { useFormat } from '../figure/use-format.ts';
import { useSize } from '../plan/use-size.ts';
import { Segmented } from '../shell/segmented.tsx';
import { type Quantity, useWorkbench } from '../state/store.ts';
import { AccountTable } from './account-table.tsx';
import { FlowDiagram } from './flow-diagram.tsx';
import { streamsOf } from './streams.ts';
import './account.css';

const set = useWorkbench.setState;

/** The account of one quantity: what the air handlers give and who gets it, as a drawing or as a table. */
export const AccountPanel = ({ account }: { account: Account }) => (
  // The plan comes first: a hand that moves does not wait for the account below it.
  <Panel account={useDeferredValue(account)} />
);

const Panel = memo(({ account }: { account: Account }) => {
  const quantity = useWorkbench((state) => state.quantity);
  const open = useWorkbench((state) => state.accountOpen);
  const asTable = useWorkbench((state) => state.accountAsTable);
  const format = useFormat();
  const streams = useMemo(() => streamsOf(account, quantity), [account, quantity]);
  const [frame, size] = useSize<HTMLDivElement>();
  const dimension = quantity === 'air' ? 'airflow' : 'power';
  return (
    <section className={open ? 'sheet account-panel' : 'sheet account-panel shut'} aria-label="Account">
      <div className="sheet-head">
        <h2>
          <button
            type="button"
            className="account-toggle"
            aria-expanded={open}
            onClick={() => set({ accountOpen: !open })}
          >
            <svg width="10" height="10" viewBox="0 0 10 10" aria-hidden="true">
              <path d="M1 3l4 4 4-4" fill="none" stroke="currentColor" strokeWidth="1.8" />
            </svg>
            Account
          </button>
        </h2>
        {open && (
          <>
            <Segmented<Quantity>
              label="Quantity of the account"
              choices={[
                { value: 'air', words: 'Air' },
                { value: 'sensible', words: 'Heat' },
                { value: 'moisture', words: 'Moisture' },
              ]}
              value={quantity}
              onChange={(value) => set({ quantity: value })}
            />
            <Segmented
              label="Form of the account"
              choices={[
                { value: 'drawing', words: 'Drawing' },
                { value: 'table', words: 'Table' },
              ]}
              value={asTable ? 'table' : 'drawing'}
              onChange={(value) => set({ accountAsTable: value === 'table' })}
            />
            <span className="quiet">
              {format.unit(dimension)}
              <span className="when">
                , {quantity === 'air' ? 'while the fan runs' : 'average of the design hour'}
              </span>
            </span>
          </>
        )}
        <span className="push closes">closes {closesWords(streams.residual)}</span>
      </div>
      {open && (
        <div className="account-body" ref={frame}>
          {streams.given <= 0 ? (
            <p className="quiet account-none">
              {quantity === 'moisture' ? 'The equipment moves no moisture on this day.' : 'Nothing is given.'}
            </p>
          ) : asTable ? (
            <AccountTable account={account} streams={streams} dimension={dimension} />
          ) : (
            size && <FlowDiagram account={account} streams={streams} dimension={dimension} space={size} />
          )}
        </div>
      )}
    </section>
  );
});
