import { create } from 'zustand';

export type SelectedKind =
  | 'room'
  | 'part'
  | 'register'
  | 'door'
  | 'window'
  | 'zone'
  | 'system'
  | 'airHandler'
  | 'surface'
  | 'transfer';

/**
 * A record of the job in hand: its kind and its id; of a surface or window also the room (or zone) it belongs to.
 * A register is named by its own id, an air handler by that of its system.
 */
export type Selected = { readonly kind: SelectedKind; readonly id: string; readonly room?: string };

const useStore = create<{ readonly selection: readonly Selected[] }>(() => ({ selection: [] }));

export const isSame = (a: Selected, b: Selected): boolean =>
  a.kind === b.kind && a.id === b.id && a.room === b.room;

/** What is selected on the drawing, in the order in which it was taken; empty for nothing. */
export const useSelection = (): readonly Selected[] => useStore((state) => state.selection);

/** Selects these records and no others. */
export const select = (items: readonly Selected[]): void => useStore.setState({ selection: items });

export const selection = (): readonly Selected[] => useStore.getState().selection;

/** Adds a record to what is selected, or takes it out when it is. */
export const toggle = (item: Selected): void =>
  useStore.setState(({ selection: before }) => ({
    selection: before.some((each) => isSame(each, item))
      ? before.filter((each) => !isSame(each, item))
      : [...before, item],
  }));
