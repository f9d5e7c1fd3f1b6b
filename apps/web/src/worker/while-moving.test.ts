import { account, type Mode } from '@airledger/engine';
import { expect, test } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { streamsOf } from '../account/streams.ts';
import { whileMoving } from './while-moving.ts';

test.each<Mode>(['cooling', 'heating'])(
  'on a %s day the streams of the account are the same with and without what is left out',
  (mode) => {
    const whole = account(smallHouse, mode);
    const slim = whileMoving(whole, undefined);
    expect(slim.ledger.lines.length).toBeLessThan(whole.ledger.lines.length);
    for (const quantity of ['air', 'sensible', 'moisture'] as const)
      expect(streamsOf(slim, quantity)).toEqual(streamsOf(whole, quantity));
  },
);
