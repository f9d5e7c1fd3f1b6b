import type { AirSystem, Survey } from '../survey/types.ts';
import type { Reading } from './types.ts';

/**
 * Between which values a reading may lie: outside `possible` it can not be true, outside `likely` it is to be read
 * again. Wide on purpose (common practice, no source): what the survey expects is the estimator's business.
 */
export type ExpectedRange = {
  readonly possible: readonly [least: number, most: number];
  readonly likely: readonly [least: number, most: number];
};

/** Systems with the registers and parts that they own. */
const systemOf = (survey: Survey, { subject }: Reading): AirSystem | undefined => {
  if ('system' in subject) return survey.systems.find(({ id }) => id === subject.system);
  if ('part' in subject)
    return survey.systems.find(({ parts }) => parts.some(({ id }) => id === subject.part));
  if ('terminal' in subject)
    return survey.systems.find(({ parts }) =>
      parts.some(({ terminal }) => terminal?.id === subject.terminal),
    );
  return undefined;
};

/** Largest flow that the fan of a system may move, m³/s. */
const design = (system: AirSystem): number =>
  Math.max(system.designAirflow_m3s.heating, system.designAirflow_m3s.cooling);

/** Greatest pressure that a residential fan makes, Pa (common practice, no source). */
const fanPressure_Pa = 1000;

/** The range of a reading in its condition; undefined where its place is not in the survey. */
export const expectedRange = (survey: Survey, reading: Reading): ExpectedRange | undefined => {
  const { subject, setup } = reading;
  const system = systemOf(survey, reading);
  const isRunning = setup.fan !== 'off';
  switch (subject.kind) {
    case 'duct leakage':
      return (
        system && { possible: [0, 3 * design(system)], likely: [0.002 * design(system), design(system)] }
      );
    case 'house leakage': {
      const surveyed = survey.house.leakage50_m3s;
      return { possible: [0, 20 * surveyed + 1], likely: [surveyed / 4, surveyed * 4] };
    }
    case 'system static': {
      // An internal coil is drawn through, one on a furnace is blown through.
      const isPushed =
        subject.place === 'supply plenum' ||
        (subject.place === 'before coil' && (system?.airHandler.coilExternal ?? false));
      if (!isRunning) return { possible: [-60, 60], likely: [-5, 5] };
      return isPushed
        ? { possible: [0, fanPressure_Pa], likely: [5, 250] }
        : { possible: [-fanPressure_Pa, 0], likely: [-350, -3] };
    }
    case 'part static': {
      if (!isRunning) return { possible: [-60, 60], likely: [-60, 60] };
      const side = system?.parts.find(({ id }) => id === subject.part)?.side;
      return side === 'supply'
        ? { possible: [-30, fanPressure_Pa], likely: [0.5, 200] }
        : { possible: [-fanPressure_Pa, 30], likely: [-250, -0.5] };
    }
    case 'pressure pan': {
      const held = Math.abs(setup.housePressure_Pa ?? 0);
      return { possible: [0, held], likely: [0, 0.9 * held] };
    }
    case 'fan flow':
      return (
        system && {
          possible: isRunning ? [0, 4 * design(system)] : [0, 0],
          likely: [0.3 * design(system), 1.6 * design(system)],
        }
      );
    case 'terminal flow': {
      const share = system && terminalShare(system, subject.terminal);
      if (!system || share === undefined) return undefined;
      return {
        possible: isRunning ? [0, 2 * design(system)] : [0, 0],
        likely: [0.02 * share * design(system), Math.min(1, 4 * share) * design(system)],
      };
    }
    case 'room pressure':
      return setup.housePressure_Pa === undefined
        ? { possible: [-100, 100], likely: [-25, 25] }
        : { possible: [-120, 120], likely: [-100, 100] };
    case 'terminal temperature':
    case 'system temperature':
      return { possible: [-30, 90], likely: setup.fan === 'cooling' ? [5, 45] : [10, 75] };
    case 'space temperature': {
      const isRoom = survey.rooms.some(({ id }) => id === subject.space);
      return { possible: [-50, 90], likely: isRoom ? [10, 40] : [-40, 75] };
    }
    case 'fan power':
      return { possible: [0, 5000], likely: [40, 1600] };
  }
};

/** Share of a side's air that a register of its face would get if all faces were passed at one speed. */
const terminalShare = ({ parts }: AirSystem, id: string): number | undefined => {
  const own = parts.find(({ terminal }) => terminal?.id === id);
  if (!own) return undefined;
  const area = (all: typeof parts) =>
    all.reduce((sum, { terminal }) => sum + (terminal?.faceArea_m2 ?? 0), 0);
  return own.terminal!.faceArea_m2 / area(parts.filter(({ side }) => side === own.side));
};
