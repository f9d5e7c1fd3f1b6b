import type { PlanPoint } from '@airledger/engine';
import type { View } from './view.ts';

/** Units of the drawn sheet for each metre; a group's transform lays the sheet on the screen. */
export const sheetScale = 40;

export const toSheet = ([east, north]: PlanPoint): PlanPoint => [east * sheetScale, -north * sheetScale];

export const sheetTransform = ({ x, y, scale }: View): string =>
  `translate(${x} ${y}) scale(${scale / sheetScale})`;
