import type { AirSystem } from '../survey/types.ts';
import type { Check } from './types.ts';

/** Whether a system blows into rooms and draws from them: one that is still being drawn may lack either. */
export function openingsBothWays(system: AirSystem): readonly Check[] {
  return (['supply', 'return'] as const)
    .filter((side) => !system.parts.some((part) => part.side === side && part.terminal))
    .map((side) => ({
      id: `trade-openings-${side}-${system.id}`,
      group: 'trade',
      title: side === 'supply' ? 'Supply registers' : 'Return grilles',
      result: 'fail',
      subject: system.id,
      quantity: 'none',
      sense: 'yes or no',
      clause: 'Air must reach the rooms and come back',
      source: 'common practice, no source',
      evidence: `The survey has no ${side === 'supply' ? 'supply register' : 'return grille'} on this system, so hardly any air moves.`,
      remedy: `Add a ${side} duct that ends in a ${side === 'supply' ? 'register' : 'grille'}.`,
    }));
}
