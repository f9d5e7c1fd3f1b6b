/** Disjoint sets over 0 … count−1, with path halving. */
export type UnionFind = { find(item: number): number; join(a: number, b: number): void };

/** Makes `count` single-member sets; `find` gives the representative of an item's set. */
export function unionFind(count: number): UnionFind {
  const parent = new Int32Array(count);
  for (let i = 0; i < count; i++) parent[i] = i;
  const find = (item: number): number => {
    let at = item;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!;
      at = parent[at]!;
    }
    return at;
  };
  const join = (a: number, b: number): void => {
    const rootA = find(a);
    const rootB = find(b);
    if (rootA !== rootB) parent[rootA] = rootB;
  };
  return { find, join };
}
