import { damperCoefficient } from '../ducts/fitting-loss.ts';
import { flexSlackFactor } from '../ducts/flex-slack.ts';
import { sectionGeometry } from '../ducts/section-geometry.ts';
import type { DuctPart, PressureDrop, Survey } from '../survey/types.ts';
import { type LeakSizes, leakSpots, withLeaks } from './leak-places.ts';
import {
  doorName,
  isRun,
  leakName,
  nearLoss,
  partName,
  shareName,
  surveyParameters,
} from './survey-parameters.ts';

/**
 * The survey with the values of one calibrated house written back: leaks by place (an outer and an inner one each),
 * damper, slack, register, filter, coil, fan, envelope and doors. The engine's own solve of it gives the readings back.
 * What a part has no field for (a run tighter than its fittings say, a trunk that is harder to pass) becomes a fitting
 * named for what it is.
 *
 * @param theta unknowns of `calibrate`: the most probable ones or those of a draw
 */
export function surveyWith(survey: Survey, systemId: string, theta: Float64Array): Survey {
  const system = survey.systems.find(({ id }) => id === systemId);
  if (!system) throw new RangeError(`no system '${systemId}' in this survey`);
  const spots = leakSpots(survey, system);
  const parameters = surveyParameters(survey, system, spots);
  const value = (id: string) => theta[parameters.at(id)]!;
  const sizes: LeakSizes = new Map(
    spots.map((spot) => [
      spot.id,
      {
        flow25_m3s: Math.exp(value(leakName(spot))),
        share: spot.outside === spot.inside ? 1 : 1 / (1 + Math.exp(-value(shareName(spot)))),
      },
    ]),
  );
  const leaky = withLeaks(survey, systemId, spots, sizes);
  const filter = Math.exp(value('filter'));
  const speed = Math.exp(value('fan speed'));
  return {
    ...leaky,
    house: {
      ...leaky.house,
      leakage50_m3s: leaky.house.leakage50_m3s * Math.exp(value('envelope')),
    },
    doors: leaky.doors.map((door) => ({
      ...door,
      shutArea_m2: Math.max(1e-4, door.shutArea_m2) * Math.exp(value(doorName(door.id))),
    })),
    systems: leaky.systems.map((one) =>
      one.id !== systemId
        ? one
        : {
            ...one,
            airHandler: {
              ...one.airHandler,
              filter: scaled(one.airHandler.filter, filter),
              coil: scaled(one.airHandler.coil, Math.exp(value('coil'))),
              fan: {
                ...one.airHandler.fan,
                tables: {
                  heating: faster(one.airHandler.fan.tables.heating, speed),
                  cooling: faster(one.airHandler.fan.tables.cooling, speed),
                },
                ...(one.airHandler.fan.constantFlow_m3s
                  ? {
                      constantFlow_m3s: {
                        heating: one.airHandler.fan.constantFlow_m3s.heating * speed,
                        cooling: one.airHandler.fan.constantFlow_m3s.cooling * speed,
                      },
                    }
                  : {}),
              },
            },
            parts: one.parts.map((part) => calibratedPart(part, value, filter)),
          },
    ),
  };
}

const scaled = (drop: PressureDrop, factor: number): PressureDrop => ({
  ...drop,
  drop_Pa: drop.drop_Pa * factor,
});

/** Fan laws: flow with the speed, pressure with its square. */
const faster = (
  table: readonly (readonly [number, number])[],
  speed: number,
): readonly (readonly [number, number])[] => table.map(([flow, rise]) => [flow * speed, rise * speed ** 2]);

function calibratedPart(part: DuctPart, value: (id: string) => number, filter: number): DuctPart {
  const terminal = part.terminal?.filter
    ? { ...part.terminal, filter: scaled(part.terminal.filter, filter) }
    : part.terminal;
  if (part.role === 'bypass') return part;
  if (!isRun(part)) {
    const factor = Math.exp(value(part.side === 'supply' ? 'trunk friction' : 'return friction'));
    const fittings = part.fittings.map((fitting) => ({
      ...fitting,
      ...(fitting.lossCoefficient === undefined ? {} : { lossCoefficient: fitting.lossCoefficient * factor }),
      ...(fitting.equivalentLength_m === undefined
        ? {}
        : { equivalentLength_m: fitting.equivalentLength_m * factor }),
    }));
    const { hydraulicDiameter_m } = sectionGeometry(part.section);
    const slack = part.flexible ? flexSlackFactor(part.slack, hydraulicDiameter_m) : 1;
    return {
      ...part,
      ...(terminal ? { terminal } : {}),
      ...frictionTimes({ ...part, fittings }, factor * slack),
    };
  }
  const loss = Math.exp(value(partName('register', part.id)));
  const bare = terminal!.lossCoefficient;
  const louvre = loss >= bare ? { open: Math.sqrt(bare / loss) } : { open: 1, lossCoefficient: loss };
  const rubbed = { ...part, ...frictionTimes(part, Math.exp(value(partName('slack', part.id)))) };
  return {
    ...rubbed,
    ...damped(rubbed, Math.exp(value(partName('damper', part.id)))),
    terminal: { ...terminal!, ...louvre },
  };
}

/** A part whose friction is `factor` times that of its duct pulled straight: by slack, or as a length more or less. */
function frictionTimes(part: DuctPart, factor: number): Pick<DuctPart, 'slack' | 'fittings'> {
  const { hydraulicDiameter_m } = sectionGeometry(part.section);
  const perSlack = flexSlackFactor(1, hydraulicDiameter_m) - 1;
  if (part.flexible && factor >= 1) return { slack: (factor - 1) / perSlack, fittings: part.fittings };
  return {
    slack: 0,
    fittings: [
      ...part.fittings,
      {
        id: 'found-friction',
        kind: 'friction found by readings',
        name: 'friction found by readings',
        count: 1,
        equivalentLength_m: (factor - 1) * part.length_m,
      },
    ],
  };
}

/** Damper and takeoff with a loss coefficient: by the damper's blade where it can be, else by a fitting of its own. */
function damped(part: DuctPart, coefficient: number): Pick<DuctPart, 'fittings' | 'damper'> {
  const { damper: _, ...withoutDamper } = part;
  const blade = coefficient - nearLoss(withoutDamper);
  if (blade >= damperCoefficient(1) && (part.damper !== undefined || blade > 1))
    return { fittings: part.fittings, damper: damperOpening(blade) };
  const extra = coefficient - nearLoss(part);
  return {
    fittings: [
      ...part.fittings,
      {
        id: 'found-takeoff',
        kind: 'takeoff',
        name: 'takeoff as found by readings',
        count: 1,
        lossCoefficient: extra,
      },
    ],
  };
}

/** How far a damper is open, 0 to 1, with a loss coefficient not below that of the open blade. */
function damperOpening(coefficient: number): number {
  let [low, high] = [0, 1];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (damperCoefficient(middle) > coefficient) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
