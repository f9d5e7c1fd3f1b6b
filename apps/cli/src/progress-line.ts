/** One line on a terminal's stderr that is written over; nothing when stderr is piped. */
export const progressLine = (stream: NodeJS.WriteStream = process.stderr) => {
  let shown = 0;
  const write = (text: string): void => {
    if (!stream.isTTY) return;
    const now = performance.now();
    if (text !== '' && now - shown < 100) return;
    shown = now;
    stream.write(`\r\u001b[K${text.slice(0, (stream.columns ?? 80) - 1)}`);
  };
  return { write, clear: () => write('') };
};
