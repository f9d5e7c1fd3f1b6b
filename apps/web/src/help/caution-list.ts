import { create } from 'zustand';
import rows from '../../../../packages/report/data/cautions.json' with { type: 'json' };

/** What can hurt people or void the work, as the handover says it too. */
export type Caution = {
  readonly id: string;
  readonly title: string;
  readonly text: string;
  readonly source: string;
};

export const cautions: readonly Caution[] = rows;

export const cautionOf = (id: string): Caution | undefined => cautions.find((each) => each.id === id);

/** Whether somebody asked for the cautions, which are then brought into view. */
export const useCautions = create<{ readonly wanted: boolean }>(() => ({ wanted: false }));
