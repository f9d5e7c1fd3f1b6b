import type { Dimension } from '@airledger/engine';
import schema from '../../../../docs/job.schema.json' with { type: 'json' };

/** What the schema says of one field, as far as a form needs it. */
export type FieldKind = {
  readonly description?: string;
  readonly examples: readonly string[];
  readonly required: boolean;
  /** What it may be, in words, where that is no range of one quantity. */
  readonly limits?: string;
} & (
  | {
      readonly kind: 'quantity';
      readonly dimension: Dimension;
      /** Ends of what is possible, as one would type them. */
      readonly least?: string;
      readonly most?: string;
    }
  | { readonly kind: 'word'; readonly words: readonly string[] }
  | { readonly kind: 'words'; readonly words: readonly string[] }
  | { readonly kind: 'named'; readonly names: readonly string[] }
  | { readonly kind: 'count'; readonly least?: number; readonly most?: number }
  | { readonly kind: 'flag' | 'text' | 'lines' }
);

type Node = {
  readonly type?: string | readonly string[];
  readonly description?: string;
  readonly unit?: string;
  readonly least?: string;
  readonly most?: string;
  readonly limits?: string;
  readonly examples?: readonly string[];
  readonly enum?: readonly string[];
  readonly anyOf?: readonly Node[];
  readonly properties?: Readonly<Record<string, Node>>;
  readonly required?: readonly string[];
  readonly items?: Node;
  readonly minimum?: number;
  readonly maximum?: number;
};

const root = schema as unknown as Node;

/** Of a choice between a name and a record, the record: it has a field for everything. */
const recordOf = (node: Node): Node => node.anyOf?.find((each) => each.properties) ?? node;

const stepInto = (node: Node | undefined, segment: string): Node | undefined =>
  node && (segment === '*' ? node.items && recordOf(node.items) : recordOf(node).properties?.[segment]);

const nodeAt = (pattern: string): Node | undefined =>
  pattern.split('/').reduce<Node | undefined>(stepInto, root);

const known = new Map<string, FieldKind>();

/** Kind of the field at a pattern like `systems/<any>/parts/<any>/length`. Throws when the schema has no such field. */
export const fieldKind = (pattern: string): FieldKind => {
  const before = known.get(pattern);
  if (before) return before;
  const node = nodeAt(pattern);
  if (!node) throw new Error(`The schema has no field "${pattern}".`);
  const parts = pattern.split('/');
  const holder = parts.length > 1 ? nodeAt(parts.slice(0, -1).join('/')) : root;
  const kind = {
    ...kindOf(node),
    description: node.description,
    limits: node.limits ?? node.items?.limits,
    examples: node.examples ?? node.items?.examples ?? [],
    required: (holder && recordOf(holder).required?.includes(parts.at(-1)!)) ?? false,
  } as FieldKind;
  known.set(pattern, kind);
  return kind;
};

const kindOf = (node: Node) => {
  if (node.unit) return { kind: 'quantity', dimension: node.unit, least: node.least, most: node.most };
  if (node.enum) return { kind: 'word', words: node.enum };
  const names = node.anyOf?.find((each) => each.enum)?.enum;
  if (names) return { kind: 'named', names };
  if (node.type === 'boolean') return { kind: 'flag' };
  if (node.type === 'integer') return { kind: 'count', least: node.minimum, most: node.maximum };
  if (node.type === 'array')
    return node.items?.enum ? { kind: 'words', words: node.items.enum } : { kind: 'lines' };
  return { kind: 'text' };
};

/** Every field that the schema has, as a pattern: those without fields of their own. */
export const allFields = (): readonly string[] => leaves(root, '');

const leaves = (node: Node, path: string): readonly string[] => {
  const record = recordOf(node);
  if (record.properties)
    return Object.entries(record.properties).flatMap(([key, each]) =>
      leaves(each, path === '' ? key : `${path}/${key}`),
    );
  return node.items && recordOf(node.items).properties ? leaves(node.items, `${path}/*`) : [path];
};
