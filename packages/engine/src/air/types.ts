import type { NetworkSolution } from '../network/types.ts';
import type { LeakPlace, Mode } from '../survey/types.ts';

/** What a node of the network is in the house. */
export type AirNode = {
  readonly kind: 'outdoors' | 'room' | 'zone' | 'duct';
  /** Room or zone id; for a duct node the part (or 'system/air-handler') it belongs to. */
  readonly id: string;
};

/** What an element of the network is in the house. */
export type AirElementKind =
  | 'duct'
  | 'leak'
  | 'terminal'
  | 'fan'
  | 'filter'
  | 'coil'
  | 'damper'
  | 'door'
  | 'transfer'
  | 'envelope'
  | 'zone opening'
  | 'ventilator'
  | 'bypass';

/** What an element of the network is in the house; index = element index in the network. */
export type AirElement = {
  readonly kind: AirElementKind;
  readonly from: number;
  readonly to: number;
  readonly system?: string;
  readonly side?: 'supply' | 'return';
  /** Duct part, door, transfer, room, zone or ventilator it stands for. */
  readonly of: string;
  readonly leak?: { readonly id: string; readonly place: LeakPlace };
  readonly terminal?: string;
  /** Heat conductance of this piece of duct to its surroundings, W/K, films included. */
  readonly conductance_WK?: number;
  /** Surface of this piece of duct, m². */
  readonly surface_m2?: number;
  /** Zone or room around it. */
  readonly surroundings?: string;
};

/** The air of one survey in one mode: where it goes, as mass kept exactly. */
export type Air = {
  readonly mode: Mode;
  readonly nodes: readonly AirNode[];
  readonly elements: readonly AirElement[];
  readonly solution: NetworkSolution;
  /** Density that the volume flows refer to: flow × this = mass flow, in every element. */
  readonly referenceDensity_kgm3: number;
  readonly systems: readonly SystemAir[];
};

/** Flow and pressures at one air handler. */
export type SystemAir = {
  readonly system: string;
  /** Element index of its fan. */
  readonly fan: number;
  readonly fanFlow_m3s: number;
  readonly fanRise_Pa: number;
  /** Static pressures in the supply and return openings of the cabinet, against the space it stands in. */
  readonly supplyStatic_Pa: number;
  readonly returnStatic_Pa: number;
  /** As a gauge would read it for the rating: supply minus return at the cabinet openings. */
  readonly externalStatic_Pa: number;
  readonly fanAtLimit: boolean;
  /** Node index of the return opening, before filter and cabinet leaks, and of the supply end of the air handler. */
  readonly returning: number;
  readonly leaving: number;
};
