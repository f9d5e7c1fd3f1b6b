/** An elimination order and, for each pivot in turn, the nodes it still touches. */
export type EliminationOrder = {
  /** order[k] is the node eliminated at step k. */
  readonly order: Int32Array;
  /** columns[k] lists the nodes that are neighbours of order[k] when it is eliminated (fill included). */
  readonly columns: readonly (readonly number[])[];
};

/**
 * Minimum-degree elimination of a symmetric graph; nodes of equal degree leave in first-in-last-out order.
 * Duct networks are trees with few loops, so an explicit elimination graph is both simple and fast.
 * Source: Tinney & Walker (1967), "scheme 2"; George & Liu (1989) review the family.
 *
 * @param count number of nodes
 * @param edges pairs a0, b0, a1, b1, …; repeats and loops onto the same node are ignored
 */
export function minimumDegree(count: number, edges: Int32Array): EliminationOrder {
  const neighbours = uniqueNeighbours(count, edges);
  const queue = degreeQueue(neighbours);
  const order = new Int32Array(count);
  const columns: number[][] = new Array(count);
  const seen = new Int32Array(count).fill(-1);
  const gone = new Uint8Array(count);
  for (let step = 0; step < count; step++) {
    const pivot = queue.takeLowest();
    const touched = neighbours[pivot]!;
    if (touched.length === count - step - 1) {
      // The lowest degree reaches everybody left: a clique, whose order no longer matters.
      finishClique(pivot, step, order, columns, gone);
      break;
    }
    order[step] = pivot;
    columns[step] = touched;
    gone[pivot] = 1;
    for (const node of touched) {
      const list = neighbours[node]!;
      const before = list.length;
      seen[node] = node;
      let kept = 0;
      for (let i = 0; i < before; i++) {
        const other = list[i]!;
        if (other === pivot) continue;
        seen[other] = node;
        list[kept++] = other;
      }
      list.length = kept;
      for (const other of touched) if (seen[other] !== node) list.push(other);
      // The stamps are node numbers, which return at the next pivot: wipe them.
      for (const other of list) seen[other] = -1;
      seen[node] = -1;
      if (list.length !== before) queue.move(node, before, list.length);
    }
  }
  return { order, columns };
}

function uniqueNeighbours(count: number, edges: Int32Array): number[][] {
  const lists: number[][] = Array.from({ length: count }, () => []);
  for (let i = 0; i < edges.length; i += 2) {
    const a = edges[i]!;
    const b = edges[i + 1]!;
    if (a === b) continue;
    lists[a]!.push(b);
    lists[b]!.push(a);
  }
  return lists.map((list) => (list.length > 1 ? [...new Set(list)] : list));
}

function finishClique(
  first: number,
  step: number,
  order: Int32Array,
  columns: number[][],
  gone: Uint8Array,
): void {
  const left = [first];
  gone[first] = 1;
  for (let node = 0; node < gone.length; node++) if (gone[node] === 0) left.push(node);
  for (let i = 0; i < left.length; i++) {
    order[step + i] = left[i]!;
    columns[step + i] = left.slice(i + 1);
  }
}

/** Nodes in linked lists, one list for each degree. */
function degreeQueue(neighbours: readonly number[][]) {
  const count = neighbours.length;
  const head = new Int32Array(count + 1).fill(-1);
  const next = new Int32Array(count).fill(-1);
  const previous = new Int32Array(count).fill(-1);
  let lowest = 0;
  const insert = (node: number, degree: number): void => {
    const first = head[degree]!;
    next[node] = first;
    previous[node] = -1;
    if (first >= 0) previous[first] = node;
    head[degree] = node;
    if (degree < lowest) lowest = degree;
  };
  const remove = (node: number, degree: number): void => {
    const before = previous[node]!;
    const after = next[node]!;
    if (before >= 0) next[before] = after;
    else head[degree] = after;
    if (after >= 0) previous[after] = before;
  };
  for (let node = count - 1; node >= 0; node--) insert(node, neighbours[node]!.length);
  lowest = 0;
  return {
    takeLowest(): number {
      while (head[lowest]! < 0) lowest++;
      const node = head[lowest]!;
      remove(node, lowest);
      return node;
    },
    move(node: number, from: number, to: number): void {
      remove(node, from);
      insert(node, to);
    },
  };
}
