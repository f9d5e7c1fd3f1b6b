import { applyState, type Job, stateIds } from '@airledger/job';
import { useWorkbench, type Workbench } from '../state/store.ts';

/** What is in view and in hand, without what the next version of the job no longer has. */
export const standing = (next: Job): Partial<Workbench> => {
  const { viewed, pair, room, part } = useWorkbench.getState();
  const ids = stateIds(next);
  const there = (id: string) => (ids.includes(id) ? id : ids.at(-1)!);
  const [first, second] = [there(pair[0]), there(pair[1])];
  // A house that had one state is compared with the next as soon as there is one.
  const other = first === second ? (ids.find((id) => id !== first) ?? second) : second;
  const house = applyState(next, there(viewed));
  const hasRoom = house.rooms.some(({ id }) => id === room);
  const hasPart = house.systems?.some(({ parts }) => parts.some(({ id }) => id === part));
  return {
    viewed: there(viewed),
    pair: [first, other],
    ...(!hasRoom && { room: undefined }),
    ...(!hasPart && { part: undefined }),
  };
};
