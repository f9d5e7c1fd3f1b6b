import { readFileSync } from 'node:fs';
import {
  account,
  balance,
  fieldSheets,
  type Survey,
  seededRandom,
  withNewDampers,
  zoningCases,
} from '@airledger/engine';
import { readJob, surveyOf } from '@airledger/job';
import { describe, expect, it } from 'vitest';
import { airTemperatures } from '../packages/engine/src/account/air-temperatures.ts';
import { solveAir } from '../packages/engine/src/air/solve-air.ts';
import { balanceSeason } from '../packages/engine/src/balance/balance-season.ts';
import { randomHouse } from './fixtures/random-house.ts';

const demo = (file: string, state: string): Survey => {
  const read = readJob(readFileSync(new URL(`../demo/${file}.airledger.json`, import.meta.url), 'utf8'));
  if ('errors' in read) throw new Error(read.errors.map((error) => error.message).join('\n'));
  return surveyOf(read.job, state);
};

const house = (seed: number) =>
  withNewDampers(
    randomHouse(seed, {
      leakage25_cfm: { cabinet: 20, returnJoint: 15, returnDucts: 20, supplyJoint: 10, supplyDucts: 30 },
      fanFlow_cfm: [900, 1300],
      doorsOpen: false,
    }),
  );

describe('balancing', () => {
  it.each([
    ['1-quail-run-lane', 'as-specified'],
    ['2-tamarack-bend', 'as-specified'],
    ['3-alder-ferry-road', 'as-specified'],
  ])('%s %s: every room gets the same share, one damper stays open', (file, state) => {
    const { seasons } = balance(withNewDampers(demo(file, state)));
    expect(seasons.map(({ mode }) => mode)).toEqual(['heating', 'cooling']);
    for (const { after, settings, systems } of seasons) {
      expect(after.most / after.least).toBeLessThan(1.02);
      for (const { system } of systems) {
        const positions = settings.filter((one) => one.system === system).map((one) => one.position!);
        expect(Math.max(...positions)).toBeCloseTo(1, 6);
      }
    }
  });

  it('shares are those of a fresh account with the settings in it', () => {
    const survey = withNewDampers(demo('1-quail-run-lane', 'as-specified'));
    const { seasons } = balance(survey);
    for (const { mode, settings, after } of seasons) {
      const systems = survey.systems.map((system) => ({
        ...system,
        parts: system.parts.map((part) => {
          const setting = settings.find((one) => one.part === part.id);
          return setting ? { ...part, damper: setting.position! } : part;
        }),
      }));
      const shares = account({ ...survey, systems }, mode).rooms.map(
        (room) => room.delivered_m3s / room.needed_m3s,
      );
      expect(Math.min(...shares)).toBeCloseTo(after.least, 6);
      expect(Math.max(...shares)).toBeCloseTo(after.most, 6);
    }
  });

  it('random houses with shut doors come to equal shares', () => {
    for (let seed = 1; seed <= 30; seed++)
      for (const { after } of balance(house(seed)).seasons)
        expect(after.most / after.least).toBeLessThan(1.02);
  });

  it('the compromise departs from each season by no more than dampers for the other season would', () => {
    const { seasons, compromise } = balance(withNewDampers(demo('2-tamarack-bend', 'as-specified')));
    const ratio = ({ least, most }: { least: number; most: number }) => most / least;
    const worst = Math.max(...compromise.seasons.map(({ spread }) => ratio(spread)));
    const [heating, cooling] = seasons;
    // With the dampers of one season the other departs by the whole ratio of the two needs, the compromise by its root.
    const ratios = heating!.settings.map(
      (setting, i) => cooling!.settings[i]!.target_m3s / setting.target_m3s,
    );
    const whole = Math.max(...ratios) / Math.min(...ratios);
    // Needs themselves follow the settings a little, hence the tenth.
    expect(worst).toBeLessThan(1.1 * Math.sqrt(whole));
  });

  it('what dampers can not do is said with the room that lacks', () => {
    const asFound = balance(withNewDampers(demo('1-quail-run-lane', 'as-found')));
    const sealed = balance(withNewDampers(demo('1-quail-run-lane', 'as-specified')));
    for (const { obstacles } of asFound.seasons)
      expect(obstacles.map(({ kind }) => kind)).toContain('short of air');
    // After sealing, straightening and a way back for the air, dampers suffice.
    for (const { obstacles } of sealed.seasons) expect(obstacles).toEqual([]);
  });

  it('a house without dampers is told so', () => {
    const [, cooling] = balance(demo('1-quail-run-lane', 'as-found')).seasons;
    expect(cooling!.obstacles.some(({ kind }) => kind === 'no damper')).toBe(true);
    expect(cooling!.settings.every(({ part }) => part === undefined)).toBe(true);
  });
});

describe('the field sheet', () => {
  it('its last predicted readings are those of the balanced house', () => {
    const survey = withNewDampers(demo('1-quail-run-lane', 'as-specified'));
    const [heating] = balance(survey).seasons;
    const [sheet] = fieldSheets(survey, 'heating', heating!.settings);
    const last = sheet!.steps.at(-1)!;
    const share = heating!.systems[0]!.share;
    expect(last.aim).toBeCloseTo(1, 2);
    const setting = heating!.settings.find(({ terminal }) => terminal === last.terminal)!;
    expect(last.predicted_m3s / setting.target_m3s).toBeCloseTo(share, 2);
  });

  it('followed with a noisy hood in a house that is not quite as surveyed, comes within 10 % in two rounds', () => {
    const within: number[] = [];
    for (let seed = 1; seed <= 100; seed++) within.push(followed(seed));
    expect(within.filter((rounds) => rounds <= 2).length).toBe(100);
  });
});

/** Rounds that it takes to bring all registers within ±10 % of each other's mean share. */
function followed(seed: number): number {
  const random = seededRandom(1000 + seed);
  const noise = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const survey = house(seed);
  const heating = balanceSeason(survey, 'heating');
  const [sheet] = fieldSheets(survey, 'heating', heating.settings);
  const target = new Map(heating.settings.map(({ terminal, target_m3s }) => [terminal, target_m3s]));
  // The true house: every run resists its own share more or less than surveyed, by about a quarter.
  let real: Survey = {
    ...survey,
    systems: survey.systems.map((system) => ({
      ...system,
      parts: system.parts.map((part) =>
        part.terminal && part.side === 'supply'
          ? {
              ...part,
              damper: 1,
              length_m: part.length_m * Math.exp(0.25 * noise()),
              terminal: {
                ...part.terminal,
                lossCoefficient: part.terminal.lossCoefficient * Math.exp(0.25 * noise()),
              },
            }
          : part,
      ),
    })),
  };
  const { air, mode, loads } = account(survey, 'heating');
  const conditions = airTemperatures(survey, mode, loads);
  let last = air;
  const flows = () => {
    last = solveAir(real, mode, conditions, last);
    return new Map(
      last.elements.flatMap(({ terminal, side }, e) =>
        terminal && side === 'supply' ? [[terminal, last.solution.flow_m3s[e]!] as const] : [],
      ),
    );
  };
  const turn = (part: string, damper: number) => {
    real = {
      ...real,
      systems: real.systems.map((system) => ({
        ...system,
        parts: system.parts.map((one) => (one.id === part ? { ...one, damper } : one)),
      })),
    };
  };
  // A powered hood, 3 % of the reading (manufacturers' usual statement, from memory); the sheet asks for two readings.
  const hood = (terminal: string, flow: ReadonlyMap<string, number>) =>
    (flow.get(terminal)! / target.get(terminal)!) * (1 + (0.03 * (noise() + noise())) / 2);
  const opened = flows();
  const first = sheet!.first.map(({ terminal }) => [hood(terminal, opened), terminal] as const);
  let key = first.toSorted(([a], [b]) => a - b)[0]![1];
  for (let round = 1; round <= 3; round++) {
    const readings = flows();
    // A register that stays behind with its damper wide open leads from then on.
    const behind = sheet!.steps.find(
      ({ terminal, part }) =>
        round > 1 && positionOf(real, part) === 1 && hood(terminal, readings) < hood(key, readings),
    );
    if (behind) key = behind.terminal;
    for (const { part, terminal, to } of sheet!.steps) {
      if (terminal === key) {
        turn(part, 1);
        continue;
      }
      let position = round === 1 ? to : positionOf(real, part);
      for (let tries = 0; tries < 4; tries++) {
        turn(part, position);
        const flow = flows();
        const ratio = hood(terminal, flow) / hood(key, flow);
        if (Math.abs(ratio - 1) < 0.04) break;
        position = Math.min(1, Math.max(0.1, position / ratio ** 0.7));
      }
    }
    const shares = [...flows()].map(([terminal, flow]) => flow / target.get(terminal)!);
    const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
    if (shares.every((share) => Math.abs(share / mean - 1) <= 0.1)) return round;
  }
  return 3;
}

const positionOf = ({ systems }: Survey, id: string): number =>
  systems.flatMap(({ parts }) => parts).find((part) => part.id === id)!.damper!;

describe('zone dampers', () => {
  it('a shut zone raises the static pressure, and a bypass takes some of its air', () => {
    const plain = demo('2-tamarack-bend', 'as-specified');
    const [system] = plain.systems;
    const trunks = system!.parts.filter(
      ({ id, side }) => side === 'supply' && system!.parts.filter(({ joins }) => joins === id).length > 1,
    );
    const zoned: Survey = {
      ...plain,
      systems: [
        {
          ...system!,
          parts: system!.parts.map((part) => (trunks.at(-1)!.id === part.id ? { ...part, damper: 1 } : part)),
        },
        ...plain.systems.slice(1),
      ],
    };
    const [open, shut] = zoningCases(zoned, 'heating');
    expect(open!.shut).toEqual([]);
    expect(shut!.shut).toEqual([trunks.at(-1)!.id]);
    expect(shut!.externalStatic_Pa).toBeGreaterThan(open!.externalStatic_Pa);
    expect(shut!.fanFlow_m3s).toBeLessThanOrEqual(open!.fanFlow_m3s * (1 + 1e-9));
  });
});
