import { fromSi, type Section, toSi } from '@airledger/engine';
import { ductFriction } from '@airledger/engine/ducts/duct-friction';
import { flexSlackFactor } from '@airledger/engine/ducts/flex-slack';
import { kinematicViscosity } from '@airledger/engine/psychrometrics/air-properties';
import { materials, named } from '../survey/tables.ts';

/** Friction that ducts are sized to (common practice, no source). */
const supplyRate_Pam = toSi('frictionRate', 0.08, 'in.wc/100 ft');
const returnRate_Pam = toSi('frictionRate', 0.05, 'in.wc/100 ft');
/** Air in ducts, near enough for sizing. */
const density_kgm3 = 1.2;
const air = { density_kgm3, kinematicViscosity_m2s: kinematicViscosity(20, density_kgm3) };

export type SizedFor = {
  readonly flow_m3s: number;
  readonly material: string;
  /** Of flex; 0 otherwise. */
  readonly slack: number;
  readonly side: 'supply' | 'return';
};

const passes = (section: Section, { flow_m3s, material, slack, side }: SizedFor): boolean => {
  const loss = ductFriction(section, named(materials, material)!.roughness_m, flow_m3s, air).loss_Pam;
  const factor = section.shape === 'round' && slack > 0 ? flexSlackFactor(slack, section.diameter_m) : 1;
  return loss * factor <= (side === 'supply' ? supplyRate_Pam : returnRate_Pam);
};

const inch = (size: number): number => toSi('size', size, 'in');

/** Least round size in whole inches that keeps the friction, from `least` to `most` inches. */
export const roundSize_in = (duct: SizedFor, least = 4, most = 24): number => {
  for (let size = least; size < most; size++)
    if (passes({ shape: 'round', diameter_m: inch(size) }, duct)) return size;
  return most;
};

/** Least rectangular trunk of the usual heights that keeps the friction, in even inches: "14 in x 8 in". */
export const trunkSection = (duct: SizedFor): string => {
  for (const height of [8, 10, 12, 16])
    for (let width = height; width <= 3 * height; width += 2)
      if (passes({ shape: 'rectangular', width_m: inch(width), height_m: inch(height) }, duct))
        return `${width} in x ${height} in`;
  return '60 in x 20 in';
};

/** Square plenum that air moves through slowly enough to share itself out, in even inches. */
export const plenumSection = (flow_m3s: number): string => {
  const slow_ms = toSi('velocity', 600, 'fpm');
  const side = 2 * Math.ceil(fromSi('size', Math.sqrt(flow_m3s / slow_ms), 'in') / 2);
  return `${Math.max(side, 12)} in x ${Math.max(side, 12)} in`;
};

const registers = [
  { most_cfm: 60, face: '10 in x 4 in' },
  { most_cfm: 110, face: '10 in x 6 in' },
  { most_cfm: 160, face: '12 in x 6 in' },
  { most_cfm: Number.POSITIVE_INFINITY, face: '14 in x 8 in' },
];

/** Usual face of a supply register for its airflow (common practice, no source). */
export const registerFace = (flow_m3s: number): string =>
  registers.find(({ most_cfm }) => fromSi('airflow', flow_m3s, 'cfm') <= most_cfm)!.face;

const grilles = [
  '14 in x 10 in',
  '20 in x 14 in',
  '20 in x 20 in',
  '25 in x 20 in',
  '30 in x 20 in',
  '30 in x 30 in',
  '40 in x 30 in',
  '50 in x 40 in',
];

/** Least usual grille that draws slowly enough for its filter (350 fpm at its face, common practice, no source). */
export const grilleFace = (flow_m3s: number): string => {
  const slow_ms = toSi('velocity', 350, 'fpm');
  const area = (face: string): number => {
    const [wide = 0, high = 0] = face.split(' x ').map((side) => inch(Number.parseFloat(side)));
    return wide * high;
  };
  return grilles.find((face) => flow_m3s / area(face) <= slow_ms) ?? grilles.at(-1)!;
};
