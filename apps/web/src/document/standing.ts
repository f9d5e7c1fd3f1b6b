import { applyState, type Job, stateIds } from '@airledger/job';
import { useWorkbench, type Workbench } from '../state/store.ts';

/** What is in view and in hand, without what the next version of the job no longer has. */
export const standing = (next: Job): Partial<Workbench> => {
  const { viewed, pair, room, part } = useWorkbench.getState();
  const ids = stateIds(next);
  const there = (id: string) => (ids.includes(id) ? id : ids.at(-1)!);
  const house = applyState(next, there(viewed));
  const hasRoom = house.rooms.some(({ id }) => id === room);
  const hasPart = house.systems?.some(({ parts }) => parts.some(({ id }) => id === part));
  return {
    viewed: there(viewed),
    pair: [there(pair[0]), there(pair[1])],
    ...(!hasRoom && { room: undefined }),
    ...(!hasPart && { part: undefined }),
  };
};
