import type { JobDoor, JobRoom, JobTransfer, JobZone } from '@airledger/job';

/** What the next thing to be drawn is like; texts as the job has them. */
export type DrawOptions = {
  readonly use: NonNullable<JobRoom['use']>;
  readonly zoneKind: JobZone['kind'];
  readonly door: 'shut' | 'open' | 'opening' | 'outside';
  readonly undercut: NonNullable<JobDoor['undercut']>;
  readonly windowSize: string;
  readonly windowAssembly: string;
  readonly transferKind: JobTransfer['kind'];
  readonly transferFace: string;
  readonly jumpDiameter: string;
  readonly side: 'supply' | 'return';
  readonly trunkRole: 'plenum' | 'trunk';
  readonly trunkSection: string;
  readonly runSection: string;
  readonly returnSection: string;
  readonly runMaterial: string;
  /** Zone or room that ducts run through; empty: found by the program. */
  readonly ductZone: string;
  readonly insulation: string;
  readonly rises: string;
  readonly registerFace: string;
  readonly grilleFace: string;
};

export const usualOptions: DrawOptions = {
  use: 'bedroom',
  zoneKind: 'attic',
  door: 'shut',
  undercut: '0.75 in',
  windowSize: '3 ft x 4 ft',
  windowAssembly: '',
  transferKind: 'transfer grille',
  transferFace: '12 in x 6 in',
  jumpDiameter: '8 in',
  side: 'supply',
  trunkRole: 'trunk',
  trunkSection: '16 in x 8 in',
  runSection: '6 in',
  returnSection: '14 in',
  runMaterial: 'flex',
  ductZone: '',
  insulation: 'R-6',
  rises: '2 ft',
  registerFace: '10 in x 4 in',
  grilleFace: '20 in x 20 in',
};
