import { readFileSync } from 'node:fs';
import { readJob, surveyOf } from '@airledger/job';
import { expect, test } from 'vitest';
import { applyTrials, handleId } from '../trial/trials.ts';
import { isSealing } from './sealing-in-hand.ts';

const read = readJob(readFileSync('demo/1-quail-run-lane.airledger.json', 'utf8'));
if ('errors' in read) throw new Error('The demo house does not read.');
const found = surveyOf(read.job, 'as-found');
const leaky = found.systems[0]!.parts.find((part) => part.leaks.some((leak) => leak.flow25_m3s > 0))!;
const tried = (flow_m3s: number) =>
  applyTrials(found, { [handleId('leak', leaky.id, leaky.leaks[0]!.id)]: flow_m3s });

test('a state or a trial with less leakage is a sealing; one with more, or only other values, is not', () => {
  expect(isSealing(found, surveyOf(read.job, 'as-specified'))).toBe(true);
  expect(isSealing(found, tried(0))).toBe(true);
  expect(isSealing(found, tried(1))).toBe(false);
  expect(isSealing(found, applyTrials(found, { [handleId('slack', leaky.id)]: 0.01 }))).toBe(false);
});
