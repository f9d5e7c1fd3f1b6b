import { describe, expect, test } from 'vitest';
import { smallHouse } from '../../../../tests/fixtures/small-house.ts';
import { account } from '../account/account.ts';
import type { Survey } from '../survey/types.ts';
import { pressureDiagnosis } from './pressure-diagnosis.ts';

const kindsOf = (survey: Survey, mode: 'heating' | 'cooling' = 'cooling') =>
  pressureDiagnosis(account(survey, mode), 'ip').map(({ kind, place }) => `${kind} ${place}`);

const doors = (shutArea_m2: number): Survey => ({
  ...smallHouse,
  doors: smallHouse.doors.map((door) => (door.open ? door : { ...door, shutArea_m2 })),
});

/** The house with all its duct leaks on one side, in the attic. */
const leaking = (side: 'supply' | 'return', flow25_m3s: number): Survey => ({
  ...doors(0.2),
  house: { ...smallHouse.house, combustionInside: true, leakage50_m3s: 0.15 },
  systems: smallHouse.systems.map((system) => ({
    ...system,
    airHandler: { ...system.airHandler, leaks: [] },
    parts: system.parts.map((part) => ({
      ...part,
      leaks:
        part.role === 'plenum' && part.side === side
          ? [{ id: 'hole', place: 'plenum', at: 'end', zone: 'attic', flow25_m3s, exponent: 0.6 }]
          : [],
    })),
  })),
});

describe('return paths', () => {
  test('a room behind a tight door lacks a way back, with the area that would do', () => {
    const found = pressureDiagnosis(account(doors(0.003), 'cooling'), 'ip');
    const bedroom = found.find(({ place }) => place === 'bed-1')!;
    expect(bedroom.kind).toBe('return path');
    expect(bedroom.remedy).toMatch(/About \d+ in² more free area/);
  });
  test('a wide undercut is enough', () =>
    expect(kindsOf(doors(0.2)).filter((kind) => kind.startsWith('return path'))).toEqual([]));
});

describe('unbalanced leaks', () => {
  test('supply leaks put the house under suction, draw air in and are a caution beside burners', () => {
    const found = pressureDiagnosis(account(leaking('supply', 0.12), 'cooling'), 'si');
    const kinds = found.map(({ kind }) => kind);
    expect(kinds).toContain('infiltration');
    expect(found.find(({ kind }) => kind === 'house pressure')!.remedy).toContain('supply side first');
    expect(found.find(({ kind }) => kind === 'combustion')!.remedy).toMatch(/licensed or qualified person/);
  });
  test('return leaks put it under pressure, which is no caution about burners', () => {
    const found = pressureDiagnosis(account(leaking('return', 0.12), 'cooling'), 'si');
    expect(found.find(({ kind }) => kind === 'house pressure')!.title).toContain('under pressure');
    expect(found.map(({ kind }) => kind)).not.toContain('combustion');
  });
  test('without a burner inside there is no caution about one', () => {
    const house = leaking('supply', 0.12);
    const electric = { ...house, house: { ...house.house, combustionInside: false } };
    expect(kindsOf(electric).join()).not.toContain('combustion');
  });
});
