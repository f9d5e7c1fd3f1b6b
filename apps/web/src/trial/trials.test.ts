import { account } from '@airledger/engine';
import { expect, test } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { handleGroups } from './handles.ts';
import { applyTrials, handleId } from './trials.ts';

test('every handle of a room changes the value that it shows, and nothing else that it shows', () => {
  const groups = handleGroups(smallHouse, 'bed-2');
  const handles = groups.flatMap((group) => group.handles);
  expect(groups.map(({ id }) => id)).toEqual(['run-bed-2', 'main', 'doors']);
  for (const handle of handles) {
    const value = handle.measure === 'open or shut' ? !handle.value : (handle.low + handle.high) / 3;
    const changed = handleGroups(applyTrials(smallHouse, { [handle.id]: value }), 'bed-2').flatMap(
      (group) => group.handles,
    );
    for (const after of changed)
      expect(after.value).toBe(
        after.id === handle.id ? value : handles.find(({ id }) => id === after.id)!.value,
      );
  }
});

test('a tight takeoff brings the room more air', () => {
  const tight = applyTrials(smallHouse, { [handleId('leak', 'run-bed-2', 'run-bed-2-takeoff-leak')]: 0 });
  const airOf = (survey: typeof smallHouse) =>
    account(survey, 'cooling').rooms.find(({ room }) => room === 'bed-2')!.delivered_m3s;
  expect(airOf(tight)).toBeGreaterThan(airOf(smallHouse));
});

test('handles of parts that are not there are ignored', () => {
  expect(
    applyTrials(smallHouse, { [handleId('slack', 'gone')]: 0.1, [handleId('door', 'gone')]: true }),
  ).toEqual(smallHouse);
});
