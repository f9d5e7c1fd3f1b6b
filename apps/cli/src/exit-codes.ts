/** What the exit code of every command means. */
export const exitCodes = { fine: 0, failsCheck: 1, badInput: 2, internal: 3 } as const;
