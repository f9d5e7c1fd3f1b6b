import type { Account } from '../account/types.ts';
import { outsideFilm_Wm2K, wrapConductivity_WmK } from '../ducts/duct-insulation.ts';
import { equivalentDiameter_m } from '../ducts/section-geometry.ts';
import { insulationAgainstCondensation } from '../figures/condensation.ts';
import { standardPressure_Pa } from '../psychrometrics/air-properties.ts';
import { dewPoint } from '../psychrometrics/wet-bulb.ts';
import type { AirSystem, DuctPart, Survey } from '../survey/types.ts';
import { isInside } from './envelope.ts';
import { decides, partKnown } from './known.ts';
import type { Check } from './types.ts';
import { atLeast, undecided } from './verdict.ts';

/**
 * Whether the jackets of cold ducts outside the envelope stay dry on the cooling design day: the least part against
 * the insulation that ASHRAE Handbook—Fundamentals 2021 ch. 23, eq. 14 asks for, at the moisture of its zone and the
 * mean temperature of the day (humid and mild is worse than hot).
 */
export function ductCondensation(survey: Survey, system: AirSystem, cooling: Account): readonly Check[] {
  const parts = system.parts.filter((part) => part.side === 'supply' && !isInside(survey, part.zone));
  const coldest = coldestAir(cooling, system.id);
  const rows = parts.flatMap((part) => {
    const humidityRatio = cooling.heat.floating.humidityRatio[part.zone];
    const coldest_C = coldest.get(part.id);
    if (humidityRatio === undefined || coldest_C === undefined) return [];
    const dew_C = dewPoint(humidityRatio, standardPressure_Pa(survey.site.elevation_m));
    const mild_C = survey.site.coolingDryBulb_C - survey.site.dailyRange_K / 2;
    const size_m = equivalentDiameter_m(part.section);
    const film = outsideFilm_Wm2K(
      part.jacketEmittance,
      size_m + 2 * wrapConductivity_WmK * part.insulation_m2KW,
    );
    const needed = insulationAgainstCondensation(coldest_C, mild_C, dew_C, film);
    return [
      {
        part,
        needed,
        has: onOutside(part, size_m),
        known: partKnown(survey, system.id, part.id, 'insulation'),
      },
    ];
  });
  if (rows.length === 0) return [];
  const worst = rows.reduce((low, row) => (row.has - row.needed < low.has - low.needed ? row : low));
  const verdict = atLeast(worst.has, worst.needed);
  const guessed = rows.filter(({ known }) => !decides(known));
  const short = rows.filter(({ has, needed }) => has < needed).map(({ part }) => part.name);
  return [
    {
      ...(guessed.length > 0 || !Number.isFinite(worst.needed) ? undecided(finite(verdict)) : verdict),
      id: `trade-condensation-${system.id}`,
      group: 'trade',
      title: 'Condensation on cold ducts',
      subject: system.id,
      quantity: 'insulation',
      clause: 'Jacket above the dew point of the surrounding air',
      source: 'ASHRAE Handbook—Fundamentals 2021 ch. 23, eq. 14; state of the surrounding air: own choice',
      evidence: [
        `Computed at the moisture of the zone and the mean temperature of the cooling design day; tightest: ${worst.part.name}.`,
        ...(guessed.length > 0
          ? [
              `The insulation of ${guessed.map(({ part }) => part.name).join(', ')} is not known; its label would settle it.`,
            ]
          : []),
      ].join(' '),
      ...(short.length > 0 && {
        remedy: `More insulation with an unbroken vapour retarder on ${short.join(', ')}.`,
      }),
    },
  ];
}

/** Saturated surroundings ask for endless insulation: no figure to show. */
const finite = (verdict: ReturnType<typeof atLeast>) =>
  Number.isFinite(verdict.limit) ? verdict : { ...verdict, limit: undefined, margin: undefined };

/** Temperature of the coldest air in each part of a system, °C. */
function coldestAir({ air, heat }: Account, system: string): ReadonlyMap<string, number> {
  const { leavingTemperature_C, nodeTemperature_C } = heat.floating;
  const coldest_C = new Map<string, number>();
  air.elements.forEach((element, index) => {
    if (element.kind !== 'duct' || element.system !== system) return;
    const { of, from } = element;
    const own_C = Math.min(leavingTemperature_C[index]!, nodeTemperature_C[from]!);
    coldest_C.set(of, Math.min(own_C, coldest_C.get(of) ?? own_C));
  });
  return coldest_C;
}

/** Labelled insulation as it counts at its outside surface: r₂·ln(r₂/r₁)/k on round duct, the label on flat sides. */
function onOutside(part: DuctPart, size_m: number): number {
  if (part.section.shape === 'rectangular') return part.insulation_m2KW;
  const inner = size_m / 2;
  const outer = inner + wrapConductivity_WmK * part.insulation_m2KW;
  return (outer * Math.log(outer / inner)) / wrapConductivity_WmK;
}
