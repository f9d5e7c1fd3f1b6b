import type { Air } from '../air/types.ts';
import type { Heat } from '../heat/types.ts';
import type { Ledger } from '../ledger/types.ts';
import type { Loads } from '../loads/types.ts';
import type { LeakPlace, Mode, Survey } from '../survey/types.ts';

/** Everything the program knows about one state of a house in one mode. */
export type Account = {
  readonly mode: Mode;
  readonly survey: Survey;
  readonly loads: Loads;
  readonly air: Air;
  readonly heat: Heat;
  readonly ledger: Ledger;
  readonly rooms: readonly RoomStanding[];
  readonly systems: readonly SystemStanding[];
  /** Whole-house figures. */
  readonly house: {
    readonly load_W: number;
    readonly ductLoss_W: number;
    readonly forcedLoad_W: number;
    readonly delivered_m3s: number;
    readonly needed_m3s: number;
    readonly inducedInfiltration_m3s: number;
    readonly pressureToOutdoors_Pa: number;
  };
};

/** How one room stands. */
export type RoomStanding = {
  readonly room: string;
  readonly name: string;
  /** Sensible load without ducts, then what its ducts lose, W (positive); load + forced + lost = output it asks for. */
  readonly load_W: number;
  readonly ductLoss_W: number;
  /** What running ducts add to the room's own load: air forced through the envelope, a warmer or colder attic, W. */
  readonly forcedLoad_W: number;
  readonly latent_W: number;
  readonly needed_m3s: number;
  readonly delivered_m3s: number;
  /** Flow-weighted temperature at its registers while the fan runs; undefined without a register. */
  readonly arrives_C?: number;
  readonly predicted_C: number;
  readonly setPoint_C: number;
  readonly pressure_Pa: number;
  /** Pressure to the space on the other side of its doors, worst. */
  readonly pressureToHall_Pa: number;
  readonly losses: readonly PathLoss[];
};

/** One thing on the way to a room that takes air or heat, with this room's part of it. */
export type PathLoss = {
  readonly system: string;
  readonly part: string;
  readonly what: string;
  readonly cause:
    | 'supply leak'
    | 'supply conduction'
    | 'return leak'
    | 'return conduction'
    | 'ventilation'
    | 'friction'
    | 'fitting'
    | 'damper'
    | 'register';
  readonly place?: LeakPlace;
  /** Air lost on the way, m³/s of this room's share; 0 for conduction and friction. */
  readonly air_m3s: number;
  readonly sensible_W: number;
  /** Pressure spent, Pa; 0 for leaks and conduction. */
  readonly drop_Pa: number;
};

/** How one system stands: what its fan moves, leaks and delivers. */
export type SystemStanding = {
  readonly system: string;
  readonly name: string;
  readonly fanFlow_m3s: number;
  readonly designAirflow_m3s: number;
  readonly externalStatic_Pa: number;
  readonly ratedExternalStatic_Pa: number;
  readonly fanAtLimit: boolean;
  /** Operating leakage by side, and the part of it that goes outside the envelope. */
  readonly supplyLeak_m3s: number;
  readonly returnLeak_m3s: number;
  readonly supplyLeakOutside_m3s: number;
  readonly returnLeakOutside_m3s: number;
  /** Sum of leak flows at 25 Pa by side as surveyed. */
  readonly supplyLeak25_m3s: number;
  readonly returnLeak25_m3s: number;
  /** What its equipment gives while it runs, without supplementary heat, W. */
  readonly capacity_W: number;
  readonly runFraction: number;
  readonly supplementary_W: number;
  /** Part of the supplementary heat that is on beside it. */
  readonly supplementaryFraction: number;
  /** True when all of it leaves its thermostat's room short of the set point. */
  readonly short: boolean;
  /** Heat that reaches rooms over heat that the air handler gives: in heating with its fan's, in cooling without. */
  readonly deliveryEfficiency: number;
  /** Air behind the air handler and in the return before it, as a probe reads them. */
  readonly leavesAt_C: number;
  readonly returnsAt_C: number;
};
