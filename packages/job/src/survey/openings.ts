import type { Door, TransferPath, Ventilator } from '@airledger/engine';
import type { Job } from '../schema/job-schema.ts';
import { sizeOf } from './plan.ts';
import { type Surveyor, shareOfFace, usually, usualValue } from './surveyor.ts';
import { defaultOf } from './tables.ts';

const pair = (between: readonly string[]): readonly [string, string] => [between[0]!, between[1]!];

export const doorsOf = (job: Job, survey: Surveyor): readonly Door[] =>
  (job.doors ?? []).map((door) => {
    const path = `doors/${door.id}`;
    const [width, height] = sizeOf(door.size ?? defaultOf('door.size').value);
    if (door.size === undefined)
      survey.word(`${path}/size`, undefined, defaultOf('door.size').value, defaultOf('door.size').source);
    const openArea_m2 = width * height;
    if (door.opening)
      return { id: door.id, between: pair(door.between), open: true, openArea_m2, shutArea_m2: openArea_m2 };
    const undercut = survey.quantity(`${path}/undercut`, door.undercut, 'size', usually('door.undercut'));
    return {
      id: door.id,
      between: pair(door.between),
      open: door.open ?? false,
      openArea_m2,
      shutArea_m2: survey.quantity(`${path}/shutArea`, door.shutArea, 'opening', {
        value: width * undercut,
        source: 'width of the leaf times its undercut',
      }),
    };
  });

export const transfersOf = (job: Job, survey: Surveyor): readonly TransferPath[] =>
  (job.transfers ?? []).map((transfer) => {
    const path = `transfers/${transfer.id}`;
    const diameter = survey.optional(`${path}/diameter`, transfer.diameter, 'size');
    const face = transfer.face === undefined ? undefined : sizeOf(transfer.face);
    const gross = face ? face[0] * face[1] : (Math.PI / 4) * (diameter ?? 0) ** 2;
    return {
      id: transfer.id,
      kind: transfer.kind,
      between: pair(transfer.between),
      freeArea_m2: survey.quantity(`${path}/freeArea`, transfer.freeArea, 'opening', {
        value: face ? gross * usualValue('transfer.freeShare', 'ratio') : gross,
        source: face ? shareOfFace('transfer.freeShare') : 'section of the jump duct',
      }),
      lossCoefficient: survey.quantity(
        `${path}/lossCoefficient`,
        transfer.lossCoefficient,
        'number',
        usually('transfer.lossCoefficient'),
      ),
    };
  });

export const ventilatorsOf = (job: Job, survey: Surveyor): readonly Ventilator[] =>
  (job.ventilators ?? []).map((ventilator) => {
    const path = `ventilators/${ventilator.id}`;
    const recovery = usually('ventilator.recovery');
    return {
      id: ventilator.id,
      kind: ventilator.kind,
      ...(ventilator.room !== undefined && { room: ventilator.room }),
      ...(ventilator.returnPart !== undefined && { returnPart: ventilator.returnPart }),
      flow_m3s: survey.required(`${path}/flow`, ventilator.flow, 'airflow'),
      sensibleRecovery: survey.quantity(
        `${path}/sensibleRecovery`,
        ventilator.sensibleRecovery,
        'ratio',
        recovery,
      ),
      latentRecovery: survey.quantity(`${path}/latentRecovery`, ventilator.latentRecovery, 'ratio', recovery),
      running: ventilator.running ?? true,
    };
  });
