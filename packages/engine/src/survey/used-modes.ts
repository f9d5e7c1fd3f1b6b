import { type Mode, modes, type Survey } from './types.ts';

/** Modes that some system has equipment for, in the order in which they are shown. */
export const usedModes = ({ systems }: Pick<Survey, 'systems'>): readonly Mode[] =>
  modes.filter((mode) => systems.some(({ equipment }) => equipment[mode]));
