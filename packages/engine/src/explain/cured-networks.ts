import type { AirConditions } from '../air/air-density.ts';
import { type AirNetwork, buildAirNetwork } from '../air/build-air-network.ts';
import type { NetworkElement } from '../network/types.ts';
import type { Mode, Survey } from '../survey/types.ts';
import type { Cure } from './cures.ts';

/**
 * The air network of a survey under any subset of cures, by bit mask. A cure changes few fields of few elements, and no
 * two cures the same field, so a subset's network is put together from those of single cures; where a cure adds an
 * element (a door that was tight) every network is built anew.
 */
export function curedNetworks(
  survey: Survey,
  mode: Mode,
  conditions: AirConditions,
  cures: readonly Cure[],
): (mask: number) => AirNetwork {
  const build = (mask: number) =>
    buildAirNetwork(
      cures.reduce((cured, cure, k) => (mask & (1 << k) ? cure.apply(cured) : cured), survey),
      mode,
      conditions,
    );
  const base = build(0);
  const single = cures.map((_, k) => build(1 << k));
  if (!single.every((one) => sameElements(one, base))) return build;
  const changes = single.map((one) =>
    one.network.elements.flatMap((element, e) => {
      const fields = changedFields(base.network.elements[e]!, element);
      return fields ? [{ e, fields }] : [];
    }),
  );
  return (mask) => {
    const elements = base.network.elements.slice();
    changes.forEach((change, k) => {
      if (mask & (1 << k))
        for (const { e, fields } of change) elements[e] = { ...elements[e]!, ...fields } as NetworkElement;
    });
    return { ...base, network: { ...base.network, elements } };
  };
}

const sameElements = ({ network: one }: AirNetwork, { network: base }: AirNetwork): boolean =>
  one.elements.length === base.elements.length &&
  one.elements.every(({ id, from, to }, e) => {
    const other = base.elements[e]!;
    return id === other.id && from === other.from && to === other.to;
  });

function changedFields(before: NetworkElement, after: NetworkElement): Partial<NetworkElement> | undefined {
  const changed = Object.entries(after).filter(
    ([field, value]) => typeof value !== 'object' && value !== before[field as keyof NetworkElement],
  );
  return changed.length > 0 ? (Object.fromEntries(changed) as Partial<NetworkElement>) : undefined;
}
