import type { Account } from '@airledger/engine';
import { AccountPanel } from '../account/account-panel.tsx';
import { SideBySide } from '../compare/side-by-side.tsx';
import { Plan } from '../plan/plan.tsx';
import { PlanLegend } from '../plan/plan-legend.tsx';
import { useAccount, useStateName } from '../state/select.ts';
import { useWorkbench } from '../state/store.ts';
import { StoreySwitch } from './storey-switch.tsx';
import './air-area.css';

/** Where the air goes: on the plan, and as an account. */
export const AirArea = () => {
  const account = useAccount();
  const compared = useWorkbench((state) => state.compared);
  if (compared) return <SideBySide />;
  if (!account) return null;
  return (
    <>
      <PlanPanel account={account} />
      <AccountPanel account={account} />
    </>
  );
};

const PlanPanel = ({ account }: { account: Account }) => {
  const storey = useWorkbench((state) => state.storey);
  const state = useStateName();
  return (
    <section className="sheet plan-panel" aria-label="Plan">
      <div className="sheet-head">
        <h2>Plan</h2>
        <span className="quiet">
          {state}, {account.mode} day
        </span>
        <span className="push" />
        <StoreySwitch account={account} />
      </div>
      <Plan
        account={account}
        storey={storey}
        label={`Plan of storey ${storey}, ${state}. Arrow keys move between rooms and ducts.`}
      />
      <PlanLegend />
    </section>
  );
};
