import { condensation } from './condensation.ts';
import { delivery } from './delivery.ts';
import { equivalent } from './equivalent.ts';
import { friction } from './friction.ts';
import { leak } from './leak.ts';
import { leakLimit } from './leak-limit.ts';
import { leakageFit } from './leakage-fit.ts';
import { temperature } from './temperature.ts';
import { thickness } from './thickness.ts';
import { transfer } from './transfer.ts';
import type { FigureDefinition } from './types.ts';

/** Every single question the program answers, by name: the command line and the page share this list. */
export const figures: Readonly<Record<string, FigureDefinition>> = Object.fromEntries(
  [
    friction,
    equivalent,
    leak,
    leakLimit,
    leakageFit,
    transfer,
    temperature,
    condensation,
    delivery,
    thickness,
  ].map((figure) => [figure.name, figure]),
);
