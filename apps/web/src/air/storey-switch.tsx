import type { Account } from '@airledger/engine';
import { Segmented } from '../shell/segmented.tsx';
import { useWorkbench } from '../state/store.ts';

/** Shown only where there is more than one storey. */
export const StoreySwitch = ({ account }: { account: Account }) => {
  const storey = useWorkbench((state) => state.storey);
  const storeys = [...new Set(account.survey.rooms.map((room) => room.storey))].sort((a, b) => a - b);
  if (storeys.length < 2) return null;
  return (
    <Segmented
      label="Storey"
      choices={storeys.map((each) => ({ value: String(each), words: `Storey ${each}` }))}
      value={String(storey)}
      onChange={(value) => useWorkbench.setState({ storey: Number(value) })}
    />
  );
};
