import type { ReadingSubject, SystemPlace } from '@airledger/engine/readings/types';
import type { JobReading } from '../schema/reading-schema.ts';
import { instrumentOf } from './reading-tables.ts';

/** What a sheet that is filled in has read, and where. */
export const subjectOf = (reading: JobReading): ReadingSubject => {
  const of = reading.of!;
  switch (reading.kind) {
    case 'duct leakage':
      return { kind: 'duct leakage', system: of, to: reading.to as 'total' | 'outdoors' };
    case 'house leakage':
      return { kind: 'house leakage' };
    case 'plenum static':
      return { kind: 'system static', system: of, place: reading.at as SystemPlace };
    case 'duct static':
      return { kind: 'part static', part: of, at: reading.at as 'start' | 'end' };
    case 'pressure pan':
      return { kind: 'pressure pan', terminal: of };
    case 'fan flow':
      return { kind: 'fan flow', system: of };
    case 'register flow': {
      const hood = instrumentOf(reading).name === 'passive flow hood' ? 'passive' : 'powered';
      return { kind: 'terminal flow', terminal: of, hood };
    }
    case 'room pressure':
      return { kind: 'room pressure', room: of, to: reading.to! };
    case 'register temperature':
      return { kind: 'terminal temperature', terminal: of };
    case 'plenum temperature':
      return {
        kind: 'system temperature',
        system: of,
        place: reading.at as 'supply plenum' | 'return plenum',
      };
    case 'room temperature':
      return { kind: 'space temperature', space: of };
    case 'fan power':
      return { kind: 'fan power', system: of };
  }
};
