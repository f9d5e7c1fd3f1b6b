import type { PlanPoint } from '@airledger/engine';
import type { Job, JobUnderlay, Writing } from '@airledger/job';
import { lengthText, pointOf, pointText, siOf } from '@airledger/job';
import type { Tool } from '../tool.ts';

export type MeasureState = { readonly from?: PlanPoint; readonly to?: PlanPoint };

const full = 360;

/** Lays an underlay anew so that the stretch between two of its points has a length and, if given, a direction. */
export const scaledUnderlay = (
  job: Job,
  id: string,
  [from, to]: readonly [PlanPoint, PlanPoint],
  [length_m, angle]: readonly (number | undefined)[],
  { units }: Writing,
): Job => {
  const before_m = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const factor = (length_m ?? before_m) / before_m;
  const now = (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;
  const turn = angle === undefined ? 0 : angle - now;
  const [cos, sin] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
  const change = (underlay: JobUnderlay): JobUnderlay => {
    const [x, y] = pointOf(underlay.corner);
    const [dx, dy] = [(x - from[0]) * factor, (y - from[1]) * factor];
    const rotation = ((((siOf(underlay.rotation, 'angle') ?? 0) + turn) % full) + full) % full;
    return {
      ...underlay,
      // The first point stays where it is; all else moves about it.
      corner: pointText([from[0] + dx * cos - dy * sin, from[1] + dx * sin + dy * cos], units),
      width: lengthText((siOf(underlay.width, 'length') ?? 1) * factor, units),
      ...(Math.abs(rotation) > 0.005 || underlay.rotation !== undefined
        ? { rotation: `${Number(rotation.toFixed(2))}°` }
        : {}),
    };
  };
  return {
    ...job,
    underlays: (job.underlays ?? []).map((each) => (each.id === id ? change(each) : each)),
  };
};

/** The underlay of a storey. */
export const underlayOn = (job: Job, storey: number): JobUnderlay | undefined =>
  job.underlays?.find((each) => (each.storey ?? 1) === storey);

/** Measures between two points; where an underlay lies there, typing the true length scales it. */
export const measure: Tool<MeasureState> = {
  start: {},
  on: (state, event, { job, storey, writing }) => {
    if (event.kind === 'cancel' || event.kind === 'back') return { state: {} };
    if (event.kind === 'typed') {
      const underlay = underlayOn(job, storey);
      const { from, to } = state;
      if (!from || !to) return { state, note: 'Click two points first.' };
      if (!underlay) return { state, note: 'No picture lies under this storey to scale.' };
      const [length] = event.values;
      if (length !== undefined && !(length > 0)) return { state, note: 'The length has to be above zero.' };
      return {
        state: {},
        deed: {
          label: 'Scale underlay',
          change: (now) => scaledUnderlay(now, underlay.id, [from, to], event.values, writing),
        },
      };
    }
    if (event.kind !== 'press') return { state };
    const { raw } = event.place;
    return { state: state.from && !state.to ? { from: state.from, to: raw } : { from: raw } };
  },
  preview: ({ from, to }, place) => {
    const end = to ?? place?.raw;
    return from && end ? { line: [from, end], dots: [from, end], measures: [{ from, to: end }] } : {};
  },
  hint: ({ from, to }, { job, storey }) =>
    to && underlayOn(job, storey)
      ? 'Type the true length of this stretch, Enter: the picture is scaled to it.'
      : from
        ? 'Click the second point.'
        : 'Click the first point.',
  fields: ({ to }) =>
    to
      ? [
          { label: 'True length', dimension: 'length' },
          { label: 'Direction', dimension: 'angle' },
        ]
      : [],
};
