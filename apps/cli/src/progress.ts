/** Shows how far long work has come, on stderr, where somebody looks at it; nothing when stderr is no terminal. */
export const progress = (what: string) => {
  const shows = process.stderr.isTTY;
  const wide = 24;
  return {
    /** @param share 0 to 1 */
    at: (share: number): void => {
      if (!shows) return;
      const done = Math.round(share * wide);
      process.stderr.write(
        `\r${what} ${'█'.repeat(done)}${'░'.repeat(wide - done)} ${Math.round(share * 100)} %`,
      );
    },
    end: (): void => {
      if (shows) process.stderr.write(`\r${' '.repeat(what.length + wide + 8)}\r`);
    },
  };
};
