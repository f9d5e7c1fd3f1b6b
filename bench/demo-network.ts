import { roomTemperatureConditions } from '@airledger/engine/air/air-density';
import { buildAirNetwork } from '@airledger/engine/air/build-air-network';
import type { Network } from '@airledger/engine/network/types';
import { surveyOf } from '@airledger/job';
import { demoJob } from './demo-job.ts';

/** The air network of the first demo house as found: doors, shared zones, leaks of several exponents, all its ducts. */
export function demoNetwork(): Network {
  const survey = surveyOf(demoJob('1-quail-run-lane'), 'as-found');
  return buildAirNetwork(survey, 'cooling', roomTemperatureConditions(survey, 'cooling')).network;
}
