import { planPathOf, setRegister, uniqueId } from '@airledger/job';
import { hitsAt, partsOn } from '../scene.ts';
import type { Tool } from '../tool.ts';
import { ductDeed } from './duct.ts';
import { placing } from './placing.ts';

/**
 * A register or grille: at the open end of a duct, else in the room, with a run to it from the nearest trunk of the side
 * in hand.
 */
export const register: Tool<Record<string, never>> = placing({
  start: {},
  on: (state, event, context) => {
    if (event.kind !== 'press') return { state };
    const { job, storey, reach_m, options } = context;
    const { at } = event.place;
    const there = hitsAt(job, storey, at, reach_m).find(({ kind }) => kind === 'register');
    if (there) return { state, select: [there], note: 'A register is there already.' };
    const open = partsOn(job, storey).find(({ part }) => {
      const end = planPathOf(part).at(-1)!;
      return !part.terminal && Math.hypot(end[0] - at[0], end[1] - at[1]) <= Math.max(reach_m, 0.2);
    });
    if (!open) {
      const deed = ductDeed('run', [at, at], { ...context, reach_m: 0 });
      return typeof deed === 'string' ? { state, note: deed } : { state, deed };
    }
    const { system, part } = open;
    const id = uniqueId(job, `${part.id}-${part.side === 'supply' ? 'register' : 'grille'}`);
    return {
      state,
      deed: {
        label: `Draw ${id}`,
        change: (now) =>
          setRegister(now, system, part.id, {
            id,
            face: part.side === 'supply' ? options.registerFace : options.grilleFace,
          }),
        select: [{ kind: 'register', id }],
        confirm: { system, part: part.id },
      },
    };
  },
  preview: (_, place) => (place ? { dots: [place.at] } : {}),
  hint: () => 'Click the end of a duct, or a place in a room: a run leads to it from the nearest trunk.',
});
