import rows from './glossary.json' with { type: 'json' };

/** A word of the trade or of this page in plain words; `keys` are the ends of the schema places that it explains. */
export type Term = { readonly term: string; readonly keys: readonly string[]; readonly text: string };

export const glossary: readonly Term[] = rows.toSorted((a, b) => a.term.localeCompare(b.term, 'en'));

/** The word that explains a field, by the longest key that its place in the schema ends with. */
export const termOf = (pattern: string): Term | undefined => {
  let best: { readonly term: Term; readonly length: number } | undefined;
  for (const term of glossary)
    for (const key of term.keys)
      if ((pattern === key || pattern.endsWith(`/${key}`)) && key.length > (best?.length ?? 0))
        best = { term, length: key.length };
  return best?.term;
};
