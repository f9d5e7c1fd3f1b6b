import { account, checkRules, modes } from '@airledger/engine';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, test } from 'vitest';
import { smallHouse } from '../../../tests/fixtures/small-house.ts';
import { checkFigure } from './check-words.ts';
import { columnNumber } from './column-number.ts';
import { FlowDiagram } from './flow-diagram.tsx';
import { flowExtent, flowStreams } from './flow-streams.ts';
import type { HandoverInput } from './handover-input.ts';
import { missWords, roomOffWords } from './miss-words.ts';
import { partPassage } from './part-passage.ts';
import { placeLedger } from './place-ledger.ts';
import { placesOf } from './place-names.ts';
import { registerFlows } from './register-flows.ts';
import { RoomLoads } from './sections/room-loads.tsx';

const accounts = { heating: account(smallHouse, 'heating'), cooling: account(smallHouse, 'cooling') };

describe.each(modes)('readings of the account in %s', (mode) => {
  const one = accounts[mode];

  test('every place adds up to nothing', () => {
    for (const { id } of placesOf(smallHouse)) {
      const { entries, sum } = placeLedger(one, id);
      expect(entries.length).toBeGreaterThan(0);
      expect(Math.abs(sum.mean_m3s)).toBeLessThan(1e-12);
      expect(Math.abs(sum.sensible_W)).toBeLessThan(1e-8);
      expect(Math.abs(sum.latent_W)).toBeLessThan(1e-8);
    }
  });

  test('streams add up to what the fan moves', () => {
    const sum = flowStreams(one).reduce((total, { flow_m3s }) => total + flow_m3s, 0);
    expect(sum).toBeCloseTo(one.systems[0]!.fanFlow_m3s, 12);
  });

  test('registers add up to what rooms get, their aims to what rooms need', () => {
    const flows = registerFlows(one);
    expect(flows).toHaveLength(5);
    for (const { room, delivered_m3s, needed_m3s } of one.rooms) {
      const own = flows.filter((flow) => flow.room === room);
      expect(own.reduce((sum, { flow_m3s }) => sum + flow_m3s, 0)).toBeCloseTo(delivered_m3s, 12);
      expect(own.reduce((sum, { aim_m3s }) => sum + aim_m3s, 0)).toBeCloseTo(needed_m3s, 12);
    }
  });

  test('leaks of parts and cabinet add up to the leaks of the system', () => {
    const [system] = smallHouse.systems;
    const out = (side: 'supply' | 'return') =>
      system!.parts
        .filter((part) => part.side === side)
        .reduce((sum, { id }) => sum + partPassage(one, id).leaksOut_m3s, 0);
    const atCabinet = placeLedger(one, system!.airHandler.id).entries;
    const cabinet = (cause: string) =>
      atCabinet.filter(({ line }) => line.cause === cause).reduce((sum, { air_m3s }) => sum + air_m3s, 0);
    expect(out('supply') - cabinet('supply leak')).toBeCloseTo(one.systems[0]!.supplyLeak_m3s, 12);
    expect(cabinet('return leak') - out('return')).toBeCloseTo(one.systems[0]!.returnLeak_m3s, 12);
  });
});

test('the drawing needs no DOM and names every room with its air', () => {
  const streams = flowStreams(accounts.cooling);
  const svg = renderToStaticMarkup(
    createElement(FlowDiagram, { title: 'Air', streams, extent_m3s: flowExtent(streams), units: 'ip' }),
  );
  for (const { name } of streams) expect(svg).toContain(name);
  expect(svg).not.toMatch(/NaN|undefined/);
});

test('the drawing of a house without any air is empty, not broken', () => {
  const svg = renderToStaticMarkup(
    createElement(FlowDiagram, { title: 'Air', streams: [], extent_m3s: 0, units: 'si' }),
  );
  expect(svg).toContain('0.0 L/s');
  expect(svg).not.toMatch(/NaN|undefined|Infinity/);
});

test('loads that the method does not cover well say so by room, on the day that it is true of', () => {
  const site = { ...smallHouse.site, latitude_deg: 12 };
  const survey = { ...smallHouse, site };
  const tropical = { heating: account(survey, 'heating'), cooling: account(survey, 'cooling') };
  const html = (of: typeof accounts, house: typeof survey) =>
    renderToStaticMarkup(
      createElement(RoomLoads, {
        job: { name: 'Small house', rooms: [] } as unknown as HandoverInput['job'],
        units: 'ip',
        states: [{ id: 'as-found', survey: house, accounts: of, checks: [] }],
      }),
    );
  expect(html(tropical, survey)).toContain('Look twice at these cooling loads');
  expect(html(tropical, survey)).toContain('Latitude 12°');
  expect(html(tropical, survey)).not.toContain('these heating loads');
  expect(html(accounts, smallHouse)).not.toContain('Latitude');
});

test('numbers of columns are grouped, signed and never −0', () => {
  expect(columnNumber(1000, 'power', 'si')).toBe('1,000');
  expect(columnNumber(-12345.6, 'power', 'si', 1)).toBe('−12,345.6');
  expect(columnNumber(-0.001, 'power', 'si', 1)).toBe('0.0');
  expect(columnNumber(Number.NaN, 'power', 'si')).toBe('—');
  expect(columnNumber(undefined, 'power', 'si')).toBe('—');
});

test('figures of checks carry their unit, margins their sign', () => {
  const checks = checkRules(smallHouse, accounts);
  const supply = checks.find(({ id }) => id === 'code-insulation-main-attic-supply-r8')!;
  // is RSI 0.74; 1 R is 0.17611 m²K/W.
  expect(checkFigure(supply, 'value', 'ip')).toBe('R-4.2');
  expect(checkFigure(supply, 'margin', 'ip')).toBe('−3.8 R');
  expect(checkFigure(supply, 'value', 'si')).toBe('RSI 0.74');
  const pressure = checks.find(({ id }) => id === 'trade-room-pressure-bed-1')!;
  expect(checkFigure(pressure, 'limit', 'ip')).toBe('3.0 Pa');
  const shut = checks.find(({ quantity }) => quantity === 'none')!;
  expect(checkFigure(shut, 'value', 'ip')).toBe('—');
});

test('what a plan misses is said with its size, season and reason, in either unit system', () => {
  const off = {
    room: 'laundry',
    name: 'Laundry',
    mode: 'heating',
    drift_K: -4,
    beyond_K: 2.5,
    airShare: 0.62,
    atFullOutput: false,
    opposed: true,
  } as const;
  expect(roomOffWords(off, 'si')).toBe(
    'Laundry is 4.0 K too cold in heating, 2.5 K beyond what is allowed, with 62 % of the air it needs. In cooling it wants less air, so that no one setting of a damper serves both: set it anew for each season, or see to what the room loses through windows, walls and floor.',
  );
  const wider = { what: ['Replace Laundry with a 6 in run'], drift_K: { heating: -1.8, cooling: -1.9 } };
  const miss = { ...off, opposed: false, onItsRuns: [], hidden: false, wider };
  expect(missWords({ rooms: [miss], checks: [] }, 'ip')).toEqual([
    'Laundry is 7.2 °F too cold in heating, 4.5 °F beyond what is allowed, with 62 % of the air it needs. None of the repairs is on its own run, which was not short of air before. Tried on top of this plan: Replace Laundry with a 6 in run. The room would be 3.2 °F too cold in heating and 3.4 °F too cold in cooling.',
  ]);
});
