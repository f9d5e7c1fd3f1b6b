const widest = 100;

/** Text broken between words so that no indented line is wider than a page; a longer word stands alone. */
export const wrap = (text: string, indent: string): string => {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && indent.length + line.length + 1 + word.length > widest) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].map((one) => indent + one).join('\n');
};
