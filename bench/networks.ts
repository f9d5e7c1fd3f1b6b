import type { Network, NetworkElement, NetworkNode } from '../packages/engine/src/network/index.ts';
import { seededRandom } from '../packages/engine/src/numerics/seeded-random.ts';

const air = { density_kgm3: 1.204, kinematicViscosity_m2s: 1.51e-5 };

function duct(
  id: string,
  from: number,
  to: number,
  length: number,
  diameter: number,
  loss: number,
): NetworkElement {
  return {
    id,
    from,
    to,
    kind: 'duct',
    length_m: length,
    area_m2: (Math.PI / 4) * diameter ** 2,
    hydraulicDiameter_m: diameter,
    roughness_m: diameter < 0.2 ? 9e-4 : 9e-5,
    lossCoefficient: loss,
    slackFactor: 1,
  };
}

/**
 * A random tree of ducts behind one fan: about half of the ends are rooms at 0 Pa, a leak sits on every inner node,
 * and `loops` further ducts close rings between nodes that are near each other. Ducts are sized for 4 m/s.
 *
 * @param ducts number of ducts in the tree
 */
export function treeNetwork(ducts: number, loops: number, seed = 1): Network {
  const random = seededRandom(seed);
  const nodes: NetworkNode[] = [{ id: 'outside', fixedPressure_Pa: 0 }, { id: 'return' }, { id: 'supply' }];
  const inner = [2];
  const branches: { from: number; to: number; rooms: number }[] = [];
  const branchInto = new Map<number, number>();
  let rooms = 0;
  for (let i = 1; i < ducts; i++) {
    const from = inner[Math.floor(random() * inner.length)]!;
    const isRoom = i === ducts - 1 || (inner.length > 3 && random() < 0.5);
    const to = nodes.length;
    if (isRoom) nodes.push({ id: `room ${rooms++}`, fixedPressure_Pa: 0 });
    else {
      nodes.push({ id: `branch ${to}` });
      inner.push(to);
    }
    branchInto.set(to, branches.length);
    branches.push({ from, to, rooms: isRoom ? 1 : 0 });
  }
  // Parents come before their children, so one walk backwards counts the rooms behind every duct.
  for (let i = branches.length - 1; i >= 0; i--) {
    const parent = branchInto.get(branches[i]!.from);
    if (parent !== undefined) branches[parent]!.rooms += branches[i]!.rooms;
  }
  const roomFlow = 0.04;
  const sized = (count: number) => Math.sqrt(((4 / Math.PI) * roomFlow * Math.max(1, count)) / 4);
  const total = roomFlow * rooms;
  const elements: NetworkElement[] = [
    duct('return duct', 0, 1, 6, sized(rooms), 1),
    {
      id: 'fan',
      from: 1,
      to: 2,
      kind: 'fan',
      table: [
        [0, 320],
        [0.5 * total, 280],
        [total, 190],
        [1.8 * total, 0],
      ],
    },
  ];
  branches.forEach(({ from, to, rooms: count }, i) => {
    elements.push(duct(`duct ${i}`, from, to, 1 + 6 * random(), sized(count), 0.2 + random()));
  });
  // Rings close between neighbours, as built ones do: a branch is tied to a node three ducts up its own trunk.
  const parentOf = (node: number) => branches[branchInto.get(node) ?? 0]!.from;
  for (let i = 0; i < loops; i++) {
    const at = inner[Math.floor(random() * inner.length)]!;
    const other = parentOf(parentOf(parentOf(at)));
    if (other !== at) elements.push(duct(`loop ${i}`, at, other, 2 + 5 * random(), 0.2, 1));
  }
  for (const node of inner) {
    const coefficient = 2e-4 + 8e-4 * random();
    elements.push({ id: `leak ${node}`, from: node, to: 0, kind: 'leak', coefficient, exponent: 0.6 });
  }
  return { nodes, elements, air };
}

/**
 * A house with `rooms` rooms behind doors around one hall: two registers in large rooms, an envelope leak on each room,
 * boots and trunk leaking into an attic at −2 Pa, a filter, a coil and a return from the hall. Doors and shared zones
 * make loops everywhere.
 */
export function houseNetwork(rooms: number, seed = 1): Network {
  const random = seededRandom(seed);
  const nodes: NetworkNode[] = [
    { id: 'outside', fixedPressure_Pa: 0 },
    { id: 'attic', fixedPressure_Pa: -2 },
    { id: 'hall' },
    { id: 'return' },
    { id: 'before fan' },
    { id: 'after fan' },
    { id: 'supply' },
  ];
  const add = (id: string) => nodes.push({ id }) - 1;
  const flow = 0.05 * rooms;
  const elements: NetworkElement[] = [
    { id: 'return grille', from: 2, to: 3, kind: 'square', coefficient: 3, area_m2: 0.04 * rooms },
    { id: 'filter', from: 3, to: 4, kind: 'power', resistance: 45 / flow ** 1.3, exponent: 1.3 },
    {
      id: 'fan',
      from: 4,
      to: 5,
      kind: 'fan',
      table: [
        [0, 280],
        [0.7 * flow, 255],
        [1.2 * flow, 190],
        [1.7 * flow, 100],
        [2.1 * flow, 0],
      ],
    },
    { id: 'coil', from: 5, to: 6, kind: 'power', resistance: 50 / flow ** 1.8, exponent: 1.8 },
  ];
  const leak = (id: string, from: number, to: number, coefficient: number, exponent: number) =>
    elements.push({ id, from, to, kind: 'leak', coefficient, exponent });
  leak('return leak', 3, 1, 0.0005 * rooms, 0.6);
  leak('plenum leak', 6, 1, 0.0004 * rooms, 0.6);
  leak('hall envelope', 2, 0, 0.002 * rooms, 0.65);
  let trunk = 6;
  for (let room = 0; room < rooms; room++) {
    const roomNode = add(`room ${room}`);
    if (room % 2 === 0) {
      const next = add(`trunk ${room}`);
      const size = 0.14 * Math.sqrt(rooms - room + 1);
      elements.push(duct(`trunk ${room}`, trunk, next, 1.5 + 2 * random(), size, 0.2));
      leak(`trunk leak ${room}`, next, 1, 2e-4 + 6e-4 * random(), 0.65);
      trunk = next;
    }
    const registers = random() < 0.5 ? 2 : 1;
    for (let i = 0; i < registers; i++) {
      const boot = add(`boot ${room}.${i}`);
      const size = 0.127 + 0.05 * random();
      elements.push(duct(`run ${room}.${i}`, trunk, boot, 3 + 5 * random(), size, 1.5));
      leak(`boot leak ${room}.${i}`, boot, 1, 1e-4 + 5e-4 * random(), 0.55);
      elements.push({
        id: `register ${room}.${i}`,
        from: boot,
        to: roomNode,
        kind: 'square',
        coefficient: 2.5,
        area_m2: 0.018,
      });
    }
    elements.push({
      id: `door ${room}`,
      from: roomNode,
      to: 2,
      kind: 'square',
      coefficient: 2.78,
      area_m2: random() < 0.5 ? 0.0145 : 0.16,
    });
    leak(`envelope ${room}`, roomNode, 0, 0.001 + 0.002 * random(), 0.65);
  }
  return { nodes, elements, air };
}
