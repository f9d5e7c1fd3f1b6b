import { readFileSync } from 'node:fs';
import { roomTemperatureConditions } from '@airledger/engine/air/air-density';
import { buildAirNetwork } from '@airledger/engine/air/build-air-network';
import type { Network } from '@airledger/engine/network/types';
import { readJob, surveyOf } from '@airledger/job';

/** The air network of the first demo house as found: doors, shared zones, leaks of several exponents, all its ducts. */
export function demoNetwork(): Network {
  const read = readJob(
    readFileSync(new URL('../demo/1-quail-run-lane.airledger.json', import.meta.url), 'utf8'),
  );
  if ('errors' in read) throw new Error(read.errors.map(({ message }) => message).join('\n'));
  const survey = surveyOf(read.job, 'as-found');
  return buildAirNetwork(survey, 'cooling', roomTemperatureConditions(survey, 'cooling')).network;
}
