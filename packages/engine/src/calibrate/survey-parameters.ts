import { damperCoefficient, fittingLosses } from '../ducts/fitting-loss.ts';
import { flexSlackFactor } from '../ducts/flex-slack.ts';
import { sectionGeometry } from '../ducts/section-geometry.ts';
import { ninetiethPercentile } from '../numerics/normal-share.ts';
import type { AirSystem, DuctPart, Fact, Survey } from '../survey/types.ts';
import type { LeakSpot } from './leak-places.ts';
import { commonSd, filterLoading, houseSd, placePriors, shareSd } from './place-priors.ts';
import type { Parameter } from './types.ts';

/** Unknowns of a surveyed system, found by name. */
export type SurveyParameters = {
  readonly list: readonly Parameter[];
  readonly groupCount: number;
  readonly at: (id: string) => number;
};

export const leakName = (spot: LeakSpot): string => `leak ${spot.id}`;
export const shareName = (spot: LeakSpot): string => `share ${spot.id}`;
export const partName = (kind: 'damper' | 'slack' | 'register' | 'conductance', part: string): string =>
  `${kind} ${part}`;
export const doorName = (door: string): string => `door ${door}`;

/** A run of which damper, slack and register are unknown. */
export const isRun = (part: DuctPart): boolean => part.side === 'supply' && part.terminal !== undefined;

/** Loss coefficient near the air-handler end of a run as surveyed: takeoff fittings and damper. */
export function nearLoss(part: DuctPart): number {
  const { hydraulicDiameter_m } = sectionGeometry(part.section);
  const { near } = fittingLosses(part.fittings, usualFriction, hydraulicDiameter_m);
  return near + (part.damper === undefined ? 0 : damperCoefficient(part.damper));
}

/** Loss coefficient of a register on its whole free area, louvre as surveyed. */
export const registerLoss = ({ lossCoefficient, open }: NonNullable<DuctPart['terminal']>): number =>
  lossCoefficient / Math.max(0.03, open) ** 2;

/** A place without a damper is seldom shut all the same: a hidden blade, a crushed collar; assumed. */
const hiddenDamper = 0.03;
/** Rigid duct is seldom crushed; assumed. */
const crushed = 0.02;
const rangeWidth = 2 * ninetiethPercentile;
/** Usual friction factor, for turning lengths of takeoff fittings into coefficients (common practice, no source). */
const usualFriction = 0.025;

export function surveyParameters(
  survey: Survey,
  system: AirSystem,
  spots: readonly LeakSpot[],
): SurveyParameters {
  const list: Parameter[] = [];
  const groups: string[] = [];
  const group = (name: string, sd: number) => {
    if (!groups.includes(name)) groups.push(name);
    return { index: groups.indexOf(name), sd };
  };
  const fact = (path: string): Fact | undefined => survey.facts[`systems/${system.id}/${path}`];
  const house = (id: string, mean: number, sd: number) => list.push({ id, kind: 'house', mean, sd });

  for (const spot of spots) {
    const { defect, toOutdoors } = placePriors[spot.kind];
    const run = spot.run === undefined ? {} : { run: spot.run };
    list.push({
      id: leakName(spot),
      kind: spot.kind,
      ...run,
      mean: spot.mean,
      sd: spot.sd,
      group: group('workmanship', commonSd.workmanship),
      defect: {
        probability: defect.probability,
        mean: Math.max(Math.log(defect.median), spot.mean + defect.logSd),
        sd: defect.logSd,
      },
    });
    if (spot.outside !== spot.inside)
      list.push({
        id: shareName(spot),
        kind: 'share',
        mean: Math.log(toOutdoors! / (1 - toOutdoors!)),
        sd: shareSd,
        group: group(`share ${spot.kind}`, commonSd.share),
      });
  }
  for (const part of system.parts.filter(isRun)) {
    const run = part.id;
    const near = Math.max(0.3, nearLoss(part));
    list.push({
      id: partName('damper', run),
      kind: 'damper',
      run,
      mean: Math.log(near),
      sd: placePriors.damper.logSd,
      defect: {
        probability: part.damper === undefined ? hiddenDamper : placePriors.damper.defect.probability,
        mean: Math.max(Math.log(placePriors.damper.defect.median), Math.log(near) + 1.5),
        sd: placePriors.damper.defect.logSd,
      },
    });
    list.push({ ...slackParameter(part, fact(`parts/${run}/slack`)), run, ...slackGroup(part, group) });
    const terminal = part.terminal!;
    const loss = Math.log(registerLoss(terminal));
    list.push({
      id: partName('register', run),
      kind: 'register',
      run,
      mean: loss,
      sd: placePriors.register.logSd,
      defect: {
        probability: placePriors.register.defect.probability,
        mean: Math.max(Math.log(placePriors.register.defect.median), loss + 1.5),
        sd: placePriors.register.defect.logSd,
      },
    });
    house(partName('conductance', run), 0, houseSd.runConductance);
  }
  house('trunk friction', 0, houseSd.trunkFriction);
  house('return friction', 0, houseSd.returnFriction);
  const filter = filterFact(system, fact);
  house('filter', filter.known ? 0 : Math.log(filterLoading), filter.sd);
  house('coil', 0, houseSd.coil);
  house('fan speed', 0, houseSd.fanSpeed);
  house('conductance', 0, houseSd.conductance);
  house('envelope', 0, houseSd.envelope);
  for (const door of survey.doors) house(doorName(door.id), 0, houseSd.door);
  const index = new Map(list.map(({ id }, k) => [id, k]));
  return {
    list,
    groupCount: groups.length,
    at: (id) => {
      const found = index.get(id);
      if (found === undefined) throw new RangeError(`no unknown '${id}'`);
      return found;
    },
  };
}

const slackGroup = (
  part: DuctPart,
  group: (name: string, sd: number) => { index: number; sd: number },
): Pick<Parameter, 'group'> => (part.flexible ? { group: group('slack', commonSd.slack) } : {});

/** ln of the factor on a run's friction. */
function slackParameter(part: DuctPart, fact: Fact | undefined): Parameter {
  const { hydraulicDiameter_m } = sectionGeometry(part.section);
  const factor = (slack: number) => Math.log(flexSlackFactor(Math.max(0, slack), hydraulicDiameter_m));
  const id = partName('slack', part.id);
  const { defect, median, logSd } = placePriors.slack;
  if (!part.flexible)
    return {
      id,
      kind: 'slack',
      mean: 0,
      sd: 0.15,
      defect: { probability: crushed, mean: Math.log(defect.median), sd: defect.logSd },
    };
  const surveyed = fact !== undefined && !fact.defaulted && fact.howKnown !== 'assumed';
  const mean = surveyed ? factor(part.slack) : Math.log(median);
  const typed =
    fact?.low !== undefined && fact.high !== undefined
      ? (factor(fact.high) - factor(fact.low)) / rangeWidth
      : 0;
  return {
    id,
    kind: 'slack',
    mean,
    sd: surveyed ? Math.max(0.3, typed) : logSd,
    defect: {
      probability: defect.probability,
      mean: Math.max(Math.log(defect.median), mean + 1),
      sd: defect.logSd,
    },
  };
}

function filterFact(
  system: AirSystem,
  fact: (path: string) => Fact | undefined,
): { readonly known: boolean; readonly sd: number } {
  const grille = system.parts.find((part) => part.terminal?.filter);
  const found =
    system.airHandler.filter.drop_Pa > 0
      ? fact('airHandler/filter/drop')
      : grille && fact(`parts/${grille.id}/terminal/filter/drop`);
  const known = found !== undefined && !found.defaulted && found.howKnown !== 'assumed';
  return { known, sd: known && found.howKnown === 'measured' ? 0.2 : houseSd.filter };
}
