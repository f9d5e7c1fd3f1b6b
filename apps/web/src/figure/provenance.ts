/** Where a figure comes from, as an auditor would ask. */
export type Provenance = {
  readonly title: string;
  readonly value: string;
  /** The relation it follows, with its numbers where they are few. */
  readonly formula: string;
  readonly inputs: readonly ProvenanceInput[];
  readonly source: string;
  /** 10–90 % of the figure, when the survey gives ranges. */
  readonly range?: string;
};

export type ProvenanceInput = { readonly name: string; readonly value: string; readonly howKnown?: string };
