import { appendFileSync, existsSync, readFileSync } from 'node:fs';

/** A long run over houses, whose finished pieces are kept in a file so that it can go on later. */
export type KeptRun<T> = {
  /** Numbers of the houses that are asked for, in order. */
  readonly houses: readonly number[];
  /** What is done, by key; what the file held before counts. */
  readonly done: ReadonlyMap<string, T>;
  readonly keep: (key: string, piece: T) => void;
};

/** @param argument houses as `300` or `101-200`, and after a comma the file */
export function keptRun<T extends object>(argument: string): KeptRun<T> {
  const [houses, file] = argument.split(',') as [string, string | undefined];
  const ends = houses.split('-').map(Number);
  const [first, last] = ends.length > 1 ? [ends[0]!, ends[1]!] : [1, ends[0]!];
  const done = new Map<string, T>();
  const lines = file !== undefined && existsSync(file) ? readFileSync(file, 'utf8').split('\n') : [];
  for (const line of lines.filter((one) => one)) {
    const { key, ...piece } = JSON.parse(line) as { key: string } & T;
    done.set(key, piece as unknown as T);
  }
  return {
    houses: Array.from({ length: last - first + 1 }, (_, i) => first + i),
    done,
    keep: (key, piece) => {
      done.set(key, piece);
      if (file !== undefined) appendFileSync(file, `${JSON.stringify({ key, ...piece })}\n`);
    },
  };
}
