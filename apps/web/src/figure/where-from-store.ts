import { create } from 'zustand';
import type { Provenance } from './provenance.ts';

/** The one figure that is being asked about, and the element that asked. */
export type Question = { readonly provenance: Provenance; readonly asker: HTMLElement };

export const useQuestion = create<{ question?: Question }>()(() => ({}));

export const ask = (provenance: Provenance, asker: HTMLElement): void =>
  useQuestion.setState({ question: { provenance, asker } });

export const closeQuestion = (): void => useQuestion.setState({ question: undefined });
