/** How a field sheet is worked through, step by step. @param key room or register that leads, as far as the model tells */
export const fieldSheetSteps = (key: string, reads: string): readonly string[] => [
  'Filter clean, every register open, doors as people live with them.',
  `Open every damper. Read each register twice and take the mean. ${key} should have the least of its aim, at about ${reads}.`,
  'The register with the least of its aim is the key. Its damper stays open.',
  'Turn the others in this order, each until it reads the same share of its aim as the key does at that moment.',
  'Go round a second time; mend what is off by more than 4 %. Mark the positions and lock them.',
];
