import type { Network, NetworkElement, NetworkNode } from '../../packages/engine/src/network/index.ts';
import { seededRandom } from '../../packages/engine/src/numerics/seeded-random.ts';

export type HardOptions = {
  /** Ducts without length and loss, whose flow no pressure determines by itself. */
  readonly zeroResistance?: boolean;
  /** Leave out what an independent check by node pressures can not invert. */
  readonly invertible?: boolean;
  readonly mostFreeNodes?: number;
};

/**
 * A connected network of the nastiest kinds that houses and typing errors produce: nearly shut dampers, ducts of
 * no length, constant-flow fans within and beyond their limit, fans off, other fixed pressures, bypasses across
 * the fan, reversed ducts, leaks from hair cracks to open holes, flows and pressures off scale.
 */
export function hardNetwork(seed: number, options: HardOptions = {}): Network {
  const random = seededRandom(seed);
  const chance = (share: number) => random() < share;
  const between = (low: number, high: number) => low + (high - low) * random();
  const decades = (low: number, high: number) => 10 ** between(Math.log10(low), Math.log10(high));
  const pick = (count: number) => Math.floor(random() * count);

  const flowScale = chance(0.2) ? decades(1e-3, 1e3) : 1;
  const pressureScale = chance(0.1) ? decades(1e-2, 1e2) : 1;
  const contrast = chance(0.4);
  const free = 4 + pick((options.mostFreeNodes ?? 50) - 3);
  const nodes: NetworkNode[] = [{ id: 'out', fixedPressure_Pa: 0 }];
  if (chance(0.4))
    nodes.push({ id: 'attic', fixedPressure_Pa: chance(0.6) ? between(-50, 50) * pressureScale : -2 });
  if (chance(0.2)) nodes.push({ id: 'garage', fixedPressure_Pa: between(-50, 50) * pressureScale });
  const fixed = nodes.length;
  for (let i = 0; i < free; i++) nodes.push({ id: `n${i}` });
  const elements: NetworkElement[] = [];
  const ends = (a: number, b: number) => {
    const turned = chance(0.3);
    return { id: `e${elements.length}`, from: turned ? b : a, to: turned ? a : b };
  };
  const zone = () => pick(fixed);

  const duct = (a: number, b: number) => {
    const diameter = between(0.08, 0.4) * Math.sqrt(flowScale);
    const flat = chance(0.2) ? 0.8 : 1;
    const noLength = !options.invertible && chance(0.04);
    const nothing = noLength && options.zeroResistance !== false && chance(0.5);
    elements.push({
      ...ends(a, b),
      kind: 'duct',
      length_m: noLength ? 0 : between(0.3, 12),
      area_m2: ((Math.PI / 4) * diameter ** 2) / flat,
      hydraulicDiameter_m: diameter * flat,
      roughness_m: [9e-5, 9e-4, 3e-3][pick(3)]! * Math.sqrt(flowScale),
      lossCoefficient: nothing ? 0 : chance(0.04) ? decades(1e3, 2e10) : between(0, 4),
      slackFactor: chance(0.3) ? between(1, 4) : 1,
      ...(chance(0.1) ? { density_kgm3: between(0.9, 1.4) } : {}),
    });
  };
  const leak = (a: number, b: number) => {
    elements.push({
      ...ends(a, b),
      kind: 'leak',
      coefficient: (chance(0.02) ? 0.3 : contrast ? decades(1e-8, 1e-2) : decades(1e-4, 5e-3)) * flowScale,
      exponent: between(0.5, 0.75),
    });
  };
  const square = (a: number, b: number) => {
    elements.push({
      ...ends(a, b),
      kind: 'square',
      coefficient: chance(0.05) ? decades(1e4, 2e10) : between(0.5, 4),
      area_m2: between(0.004, 0.2) * flowScale,
    });
  };

  // Return side: out → n0 (sometimes through a filter), fan n0 → n1, then a tree with loops below n1.
  const [inlet, outlet] = [fixed, fixed + 1];
  duct(zone(), inlet);
  if (chance(0.9)) {
    const shutOff = between(80, 300) * pressureScale;
    const freeFlow = between(0.2, 1.2) * flowScale;
    const bend = between(0.5, 0.8);
    elements.push({
      ...ends(0, 1),
      from: inlet,
      to: outlet,
      kind: 'fan',
      table: [
        [0, shutOff],
        [0.4 * freeFlow, between(0.8, 0.98) * shutOff],
        [bend * freeFlow + 0.1 * freeFlow, 0.5 * shutOff],
        [freeFlow, 0],
      ],
      ...(chance(0.3)
        ? { control: { kind: 'constant-flow' as const, flow_m3s: between(0.1, 1.3) * freeFlow } }
        : {}),
      ...(chance(0.15) ? { off: true } : {}),
    });
  } else duct(inlet, outlet);
  if (chance(0.1)) leak(inlet, outlet);
  for (let i = 2; i < free; i++) {
    const parent = fixed + (chance(0.8) ? 1 + pick(i - 1) : pick(i));
    const node = fixed + i;
    const draw = random();
    if (draw < 0.65) duct(parent, node);
    else if (draw < 0.8) square(parent, node);
    else if (draw < 0.88) {
      elements.push({
        ...ends(parent, node),
        kind: 'power',
        resistance: (decades(30, 300) * pressureScale) / flowScale ** 1.4,
        exponent: between(1, 2),
      });
    } else if (draw < 0.92) {
      elements.push({
        ...ends(parent, node),
        kind: 'table-loss',
        points: [
          [0.1 * flowScale, 4 * pressureScale],
          [0.3 * flowScale, 18 * pressureScale],
          [0.6 * flowScale, 55 * pressureScale],
        ],
      });
    } else leak(parent, node);
    if (chance(0.5)) leak(node, zone());
    if (chance(0.3)) square(node, zone());
  }
  duct(fixed + free - 1, zone());
  const loops = pick(1 + Math.ceil(free / 5));
  for (let i = 0; i < loops; i++) {
    const a = fixed + pick(free);
    const b = fixed + pick(free);
    if (a === b) continue;
    if (chance(0.6)) duct(a, b);
    else square(a, b);
  }
  if (!options.invertible && chance(0.15)) {
    elements.push({
      id: 'exhaust',
      from: fixed + pick(free),
      to: 0,
      kind: 'fixed-flow',
      flow_m3s: between(0.01, 0.1) * flowScale,
    });
  }
  return {
    nodes,
    elements,
    air: { density_kgm3: 1.204, kinematicViscosity_m2s: 1.51e-5 },
    ...(chance(0.2) ? { frictionLaw: 'swamee-jain' as const } : {}),
  };
}
