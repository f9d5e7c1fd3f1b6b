/** The tools in their order, each with the key that takes it up. */
export const toolList = [
  { id: 'select', name: 'Select', key: 'V' },
  { id: 'rectangle', name: 'Room', key: 'R' },
  { id: 'polygon', name: 'Outline', key: 'P' },
  { id: 'zone', name: 'Zone', key: 'Z' },
  { id: 'door', name: 'Door', key: 'D' },
  { id: 'window', name: 'Window', key: 'W' },
  { id: 'transfer', name: 'Transfer', key: 'J' },
  { id: 'airHandler', name: 'Air handler', key: 'A' },
  { id: 'trunk', name: 'Trunk', key: 'T' },
  { id: 'run', name: 'Run', key: 'U' },
  { id: 'register', name: 'Register', key: 'G' },
  { id: 'measure', name: 'Measure', key: 'M' },
] as const;

export type ToolId = (typeof toolList)[number]['id'];
