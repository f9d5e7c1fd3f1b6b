import type { TestSetup } from '../readings/types.ts';
import type { Survey } from '../survey/types.ts';
import type { SurveyModel } from './model-of-survey.ts';
import type { Condition } from './types.ts';

/** A filter that is out leaves this much more room: adds to ln C; assumed. */
const withoutFilter = 3;

/** A test's set-up as a condition of the network. Equal set-ups give equal keys. */
export function conditionOf(
  survey: Survey,
  { edges, places, spaces }: Pick<SurveyModel, 'edges' | 'places' | 'spaces'>,
  setup: TestSetup,
): { readonly key: string; readonly condition: Condition } {
  const { side, fan } = setup;
  const running = fan !== 'off' && side === 'both';
  const closed = [
    ...(running ? [] : [edges.fan]),
    ...(running || side !== 'both' ? [edges.fanOff] : []),
    ...[...edges.terminals].flatMap(([id, edge]) => {
      const excepted = setup.except?.includes(id) ?? false;
      return (setup.registers === 'sealed') !== excepted ? [edge] : [];
    }),
  ];
  const eased = setup.filter === 'out' ? edges.filters.map((edge) => ({ edge, ln: withoutFilter })) : [];
  for (const door of survey.doors) {
    const edge = edges.doors.get(door.id);
    const open = setup.doors === 'all open' || (setup.doors === 'as surveyed' && door.open);
    if (edge !== undefined && open)
      eased.push({ edge, ln: Math.log(Math.max(1, door.openArea_m2 / Math.max(1e-4, door.shutArea_m2))) });
  }
  if (running) eased.push(...edges.staticShare);
  const held = [{ node: spaces.get('outdoors')!, pressure_Pa: 0 }];
  const house_Pa = setup.housePressure_Pa ?? (setup.ductPressure_Pa === undefined ? undefined : 0);
  if (house_Pa !== undefined)
    for (const room of survey.rooms) held.push({ node: spaces.get(room.id)!, pressure_Pa: house_Pa });
  if (setup.ductPressure_Pa !== undefined)
    held.push({
      node: side === 'supply' ? places.supplyOpening : places.returning,
      pressure_Pa: house_Pa! + setup.ductPressure_Pa,
    });
  const condition = { held, closed, eased };
  return { key: JSON.stringify(condition), condition };
}
