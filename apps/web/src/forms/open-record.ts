import { valueAt } from '@airledger/job';
import { create } from 'zustand';
import { type Selected, select, selection } from '../draw/selection.ts';
import { chooseRoom, showArea } from '../state/actions.ts';
import { useWorkbench } from '../state/store.ts';

export type SideTab = 'room' | 'details' | 'measure';

type Side = {
  readonly tab: SideTab;
  /** Record whose form is open, by path; absent while it follows what is selected. */
  readonly record?: string;
  /** Field to be brought into view and focused once its form stands. */
  readonly field?: string;
};

export const useSide = create<Side>(() => ({ tab: 'room' }));

export const showTab = (tab: SideTab): void => useSide.setState({ tab });

/** Opens the form of a record. */
export const openRecord = (record: string | undefined, field?: string): void =>
  useSide.setState({ tab: 'details', record, field });

/** Shows the room or duct in hand: nothing opened by name or selected on the drawing stands in its way. */
export const showInHand = (): void => {
  select([]);
  useSide.setState({ record: undefined, field: undefined });
};

// Whoever takes another room or duct in hand, on the plan or in a table, means its details from then on.
useWorkbench.subscribe(
  ({ room, part }) => `${room} ${part}`,
  () => {
    const { room, part } = useWorkbench.getState();
    const selected = selection().at(-1);
    const isInHand =
      selected && (selected.kind === 'part' ? selected.id === part : (selected.room ?? selected.id) === room);
    if (!isInHand) showInHand();
  },
);

export const arrived = (): void => useSide.setState({ field: undefined });

const records: readonly RegExp[] = [
  /^systems\/[^/]+\/parts\/[^/]+\/terminal(?=\/filter(\/|$)|$)/,
  /^systems\/[^/]+\/parts\/[^/]+/,
  /^systems\/[^/]+\/airHandler/,
  /^systems\/[^/]+/,
  /^(rooms|zones)\/[^/]+\/surfaces\/[^/]+/,
  /^(rooms|zones|doors|transfers|ventilators|leakageTests)\/[^/]+/,
  /^(site|indoor|house|code|season|repairPrices)/,
];

/** Record that a path leads to or into, as far as there is a form of it; the job itself for anything else. */
const recordOf = (path: string): string =>
  records.map((pattern) => pattern.exec(path)?.[0]).find((record) => record !== undefined) ?? '';

/** Goes to a field of the job: its form beside the plan, with the field in hand. */
export const goTo = (path: string): void => {
  const record = recordOf(path);
  const { area } = useWorkbench.getState();
  useWorkbench.setState({ compared: false });
  if (area === 'loads' || area === 'checks') showArea('air');
  const room = /^rooms\/([^/]+)/.exec(record)?.[1];
  if (room) chooseRoom(room);
  const selected = selectedAt(record);
  select(selected ? [selected] : []);
  openRecord(record, path);
};

/** What is selected on the drawing when a record's form is open. */
const selectedAt = (record: string): Selected | undefined => {
  const [list, id = '', inner, innerId = '', last] = record.split('/');
  if (list === 'rooms' && inner === undefined) return { kind: 'room', id };
  if (list === 'zones' && inner === undefined) return { kind: 'zone', id };
  if (list === 'doors') return { kind: 'door', id };
  if (list === 'transfers') return { kind: 'transfer', id };
  if (inner === 'surfaces') return { kind: 'surface', id: innerId, room: id };
  if (inner === 'parts' && last === undefined) return { kind: 'part', id: innerId };
  if (inner === 'airHandler') return { kind: 'airHandler', id };
  return undefined;
};

/** Path of the record that was selected on the drawing; undefined when it is gone. */
export const pathOfSelected = (job: unknown, { kind, id, room }: Selected): string | undefined => {
  const systems = (valueAt(job, 'systems') ?? []) as readonly {
    id: string;
    parts: readonly { id: string; terminal?: { id: string } }[];
  }[];
  const partPath = (test: (part: { id: string; terminal?: { id: string } }) => boolean) => {
    for (const system of systems)
      for (const part of system.parts) if (test(part)) return `systems/${system.id}/parts/${part.id}`;
    return undefined;
  };
  const plain: Partial<Record<Selected['kind'], string>> = {
    room: `rooms/${id}`,
    zone: `zones/${id}`,
    door: `doors/${id}`,
    transfer: `transfers/${id}`,
    system: `systems/${id}`,
    airHandler: `systems/${id}/airHandler`,
  };
  const register = () => {
    const part = partPath(({ terminal }) => terminal?.id === id);
    return part && `${part}/terminal`;
  };
  const surface = () =>
    [`rooms/${room}/surfaces/${id}`, `zones/${room}/surfaces/${id}`].find(
      (path) => valueAt(job, path) !== undefined,
    );
  const path =
    kind === 'part'
      ? partPath((part) => part.id === id)
      : kind === 'register'
        ? register()
        : kind === 'surface' || kind === 'window'
          ? surface()
          : plain[kind];
  return path !== undefined && valueAt(job, path) !== undefined ? path : undefined;
};
