import { fromSi } from '@airledger/engine';
import { doubtsAbout } from '@airledger/engine/readings/doubts-about';
import { describe, expect, test } from 'vitest';
import { tinyJob } from '../history/random-edits.ts';
import { readJob } from '../read-job.ts';
import type { JobReading } from '../schema/reading-schema.ts';
import { surveyOf } from '../survey/survey-of.ts';
import { readingsOf } from './readings-of.ts';

type Fields = Partial<JobReading>;

const jobWith = (fields: Fields) =>
  readJob({ ...tinyJob(), readings: [{ id: 'fan', kind: 'fan flow', of: 'main', ...fields }] });

const readingsWith = (fields: Fields) => {
  const read = jobWith(fields);
  if ('errors' in read) throw new Error(read.errors.map(({ message }) => message).join('\n'));
  return readingsOf(read.job);
};

const rise = { output: '24 kBtu/h', supply: '122 °F', return: '68 °F' };
const flow = (fields: Fields) => readingsWith(fields).readings[0]!.value;

describe('by temperature rise', () => {
  test('is read while heating, in either unit, and is told how it came about', () => {
    const [ip] = readingsWith({ rise }).readings;
    const si = flow({ rise: { output: '7.0337 kW', supply: '50 °C', return: '20 °C' } });
    expect(ip!.value / si).toBeCloseTo(1, 4);
    expect(ip!.setup.fan).toBe('heating');
    expect(ip!.workedOut).toMatchObject({ by: 'temperature rise' });
    // Dry air at 300 ft and 70 °F, 0.0741 lb/ft³, a little moisture: 24 000/(60·0.0741·0.2435·54), by hand.
    expect(fromSi('airflow', ip!.value, 'cfm')).toBeCloseTo(410.5, -1);
  });

  test('a clocked burner and the fan between the probes make the heat', () => {
    const { output: _, ...ends } = rise;
    const gas = { gas: '2 ft³ in 247.2 s', heatingValue: '1030 Btu/ft³', efficiency: '80 %' };
    const clocked = flow({ rise: { ...ends, ...gas } });
    expect(clocked / flow({ rise })).toBeCloseTo(1, 4);
    const withFan = flow({ rise: { ...rise, output: '23 kBtu/h', fanPower: '293.07 W' } });
    expect(withFan / flow({ rise })).toBeCloseTo(1, 4);
  });

  test('is as sure as what it is worked out from', () => {
    const share = (fields: Fields) => {
      const { value, accuracy } = readingsWith(fields).readings[0]!;
      return accuracy / value;
    };
    const plain = share({ rise });
    expect(plain).toBeCloseTo(Math.hypot(0.1, Math.hypot(2.5, 0.5) / 30), 6);
    const careful = { output: '24 kBtu/h ± 0.5', supply: '122 °F ± 1', return: '68 °F ± 0.5' };
    expect(share({ rise: careful })).toBeLessThan(plain / 3);
    expect(share({ rise: { ...rise, supply: '95 °F' } })).toBeCloseTo(
      Math.hypot(0.1, Math.hypot(2.5, 0.5) / 15),
      6,
    );
    expect(share({ rise, accuracy: '7 %' })).toBeCloseTo(0.07, 6);
  });

  test.each<[string, Fields, string, RegExp]>([
    ['no heat', { rise: { supply: '122 °F' } }, 'blank', /expected the heat\. Clock the gas/],
    ['named, nothing typed', { instrument: 'temperature rise' }, 'blank', /expected the heat/],
    [
      'no return',
      { rise: { output: '24 kBtu/h', supply: '122 °F' } },
      'blank',
      /temperature of the return air/,
    ],
    [
      'no efficiency',
      { rise: { gas: '2 ft³ in 96 s', heatingValue: '1030 Btu/ft³' } },
      'blank',
      /efficiency/,
    ],
    ['ends swapped', { rise: { ...rise, supply: '60 °F' } }, 'impossible', /supply air at 60 °F.*mixed up/],
    ['no rise', { rise: { ...rise, supply: '68 °F' } }, 'impossible', /supply air that is warmer/],
    ['negative heat', { rise: { ...rise, output: '-24 kBtu/h' } }, 'impossible', /heat of -24 kBtu\/h/],
    [
      'gas in no time',
      {
        rise: { ...rise, output: undefined, gas: '2 ft³ in 0 s', heatingValue: '38 MJ/m³', efficiency: '1' },
      },
      'impossible',
      /heat of 2 ft³ in 0 s/,
    ],
    [
      'too good a burner',
      {
        rise: {
          ...rise,
          output: undefined,
          gas: '2 ft³ in 90 s',
          heatingValue: '38 MJ/m³',
          efficiency: '108 %',
        },
      },
      'impossible',
      /at most 100 %/,
    ],
  ])('%s: kept as typed, told, and not used', (_, fields, kind, words) => {
    const { readings, doubts } = readingsWith(fields);
    expect(readings).toEqual([]);
    expect(doubts).toMatchObject([{ kind, readings: ['fan'] }]);
    expect(doubts[0]!.message).toMatch(words);
  });

  test('an unlikely one is used and asks for its parts, not for a unit of the flow', () => {
    const { readings, doubts } = readingsWith({ rise: { ...rise, output: '240 kBtu/h' } });
    expect(doubts).toEqual([]);
    const [doubt] = doubtsAbout(readings, surveyOf(tinyJob()), 'ip');
    expect(doubt!.kind).toBe('impossible');
    expect(doubt!.remedy).toMatch(/each value that it is worked out from/);
  });

  test.each<[string, Fields]>([
    ['a flow beside it', { rise, flow: '400 cfm' }],
    ['a plenum pressure beside it', { rise, plenum: { running: '77 Pa' } }],
    ['output and gas', { rise: { ...rise, gas: '2 ft³ in 96 s' } }],
    ['another kind of reading', { kind: 'register flow', of: 'bedroom-register', rise }],
  ])('%s is refused', (_, fields) => {
    expect(jobWith(fields)).toHaveProperty('errors');
  });
});

describe('at another plenum pressure', () => {
  const read = { flow: '1000 cfm', instrument: 'plenum pressure matching' };

  test('goes to the one in use by the square root, a little less sure', () => {
    const [plain] = readingsWith(read).readings;
    const [brought] = readingsWith({
      ...read,
      plenum: { running: '0.31 in.wc', read: '0.28 in.wc' },
    }).readings;
    expect(brought!.value / plain!.value).toBeCloseTo(Math.sqrt(0.31 / 0.28), 6);
    const share = ({ value, accuracy }: typeof plain & object) => accuracy / value;
    expect(share(brought!)).toBeCloseTo(Math.hypot(share(plain!), 0.05 * Math.log(0.31 / 0.28)), 6);
    const [matched] = readingsWith({ ...read, plenum: { running: '77 Pa', read: '77 Pa' } }).readings;
    expect([matched!.value, matched!.accuracy]).toEqual([plain!.value, plain!.accuracy]);
  });

  test('one alone, or two of different sign, give no flow; two that are far are asked about', () => {
    const doubts = (plenum: JobReading['plenum']) => {
      const { readings, doubts } = readingsWith({ ...read, plenum });
      return [doubts[0]?.kind, readings.length];
    };
    expect(doubts({ running: '77 Pa' })).toEqual(['blank', 0]);
    expect(doubts({ running: '77 Pa', read: '-70 Pa' })).toEqual(['impossible', 0]);
    expect(doubts({ running: '77 Pa', read: '0 Pa' })).toEqual(['impossible', 0]);
    expect(doubts({ running: '77 Pa', read: '30 Pa' })).toEqual(['unlikely', 1]);
    expect(doubts({ running: '77 Pa', read: '60 Pa' })).toEqual([undefined, 1]);
  });
});
