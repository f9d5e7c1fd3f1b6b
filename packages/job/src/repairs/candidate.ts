import type { Job } from '../schema/job-schema.ts';
import { type Access, accessFactor, type Catalogue, type Range, type Repair } from './catalogue.ts';

/** Units of work behind one kind of access. */
export type Work = { readonly access: Access; readonly quantity: number };

/** What there is to say of a repair at places of one house. */
export type CandidateFacts = {
  /** The same for the same house: repair and place. */
  readonly id: string;
  readonly repair: Repair;
  /** In plain words, with the place. */
  readonly name: string;
  /** Records of the job that it is about, as `systems/main/parts/run-2`. */
  readonly where: readonly string[];
  /** How many units of the catalogue's row, in all and by how one gets at them. */
  readonly quantity: number;
  readonly work: readonly Work[];
  readonly hours: number;
  readonly materials: readonly { readonly what: string; readonly amount: number; readonly unit: string }[];
  readonly cost: Range;
  /** Candidates that cannot be done beside it. */
  readonly excludes: readonly string[];
};

/** A repair of the catalogue at places of one house, ready to be planned. */
export type Candidate = CandidateFacts & {
  /** The house with it done; the one given is left as it is. */
  readonly apply: (house: Job) => Job;
};

/** A candidate before it is priced and set against the others. */
export type Proposal = {
  readonly repair: string;
  /** Behind the repair in the id. */
  readonly place: string;
  readonly name: string;
  readonly where: readonly string[];
  readonly work: readonly Work[];
  /** What only one repair can have: proposals that share a claim exclude each other. */
  readonly claims: readonly string[];
  readonly apply: (house: Job) => Job;
};

const times = (range: Range, factor: number): Range => ({
  low: range.low * factor,
  typical: range.typical * factor,
  high: range.high * factor,
});
export const plus = (a: Range, b: Range): Range => ({
  low: a.low + b.low,
  typical: a.typical + b.typical,
  high: a.high + b.high,
});

/** Prices proposals and sets them against each other. Cost = quantity · material + (hours · access + visit) · rate. */
export const priced = (proposals: readonly Proposal[], catalogue: Catalogue): readonly Candidate[] =>
  proposals.map((proposal): Candidate => {
    const { place: _, claims, ...rest } = proposal;
    const repair = catalogue.repairs.get(proposal.repair)!;
    const quantity = rest.work.reduce((sum, one) => sum + one.quantity, 0);
    const hours = rest.work.reduce(
      (sum, one) => sum + one.quantity * repair.hours * accessFactor[one.access],
      repair.visitHours ?? 0,
    );
    const rivals = proposals.filter(
      (other) => other !== proposal && other.claims.some((claim) => claims.includes(claim)),
    );
    return {
      ...rest,
      id: idOf(proposal),
      repair,
      quantity,
      hours,
      materials: repair.materials.map((material) => ({ ...material, amount: material.amount * quantity })),
      cost: plus(times(repair.material, quantity), times(catalogue.labourPerHour, hours)),
      excludes: rivals.map(idOf),
    };
  });

const idOf = ({ repair, place }: Proposal): string => `${repair}-${place}`;
