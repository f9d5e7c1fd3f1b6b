import { useWorkbench, type Workbench } from '../state/store.ts';

const placeKey = 'airledger-place';
const unitsKey = 'airledger-units';

/** Where somebody was in a house: the work area, the state and day in view, the room and duct in hand. */
type Place = Pick<Workbench, 'jobId' | 'fileName' | 'area' | 'viewed' | 'mode' | 'room' | 'part'>;

const placeOf = ({ jobId, fileName, area, viewed, mode, room, part }: Workbench): Place => ({
  jobId,
  fileName,
  area,
  viewed,
  mode,
  room,
  part,
});

/** What was remembered; nothing when it is from another version of the page and cannot be read. */
const rememberedPlace = (): Place | undefined => {
  try {
    return JSON.parse(localStorage.getItem(placeKey) ?? 'null') ?? undefined;
  } catch {
    return undefined;
  }
};

/** The same house: by its identity, or, for one that was only looked at, by its file. */
const isOf = (place: Place, { jobId, fileName }: Workbench): boolean =>
  place.jobId === jobId || (fileName !== '' && place.fileName === fileName);

/** What still stands of a place in the house that was opened. */
const backAt = (place: Place, { job }: Workbench): Partial<Workbench> => {
  const survey = job?.surveys[place.viewed];
  if (!survey) return {};
  const { area, viewed, mode } = place;
  const room = survey.rooms.find(({ id }) => id === place.room);
  const part = survey.systems.flatMap(({ parts }) => parts).find(({ id }) => id === place.part);
  return {
    area,
    viewed,
    mode,
    ...(room && { room: room.id, storey: room.storey, part: part?.id }),
  };
};

/** Keeps units over a reload, and leads back to where somebody was when the same house opens again. */
export const rememberPlace = (): void => {
  const units = localStorage.getItem(unitsKey);
  if (units === 'ip' || units === 'si') useWorkbench.setState({ units });
  useWorkbench.subscribe(
    (state) => state.units,
    (chosen) => localStorage.setItem(unitsKey, chosen),
  );
  const place = rememberedPlace();
  let arrived = false;
  useWorkbench.subscribe(
    placeOf,
    (now) => {
      const state = useWorkbench.getState();
      if (!arrived && state.job) {
        arrived = true;
        if (place && isOf(place, state)) return useWorkbench.setState(backAt(place, state));
      }
      if (arrived) localStorage.setItem(placeKey, JSON.stringify(now));
    },
    { equalityFn: (a, b) => JSON.stringify(a) === JSON.stringify(b) },
  );
};
