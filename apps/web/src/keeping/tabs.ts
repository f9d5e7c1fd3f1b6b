/** Says to the other tabs, and to this one, that a kept job was written. */
const channel = new BroadcastChannel('airledger-keeping');
const listeners = new Set<(id: string) => void>();

channel.onmessage = ({ data }: MessageEvent<string>) => {
  for (const listener of listeners) listener(data);
};

export const tellTabs = (id: string): void => channel.postMessage(id);

export const onTold = (listener: (id: string) => void): void => {
  listeners.add(listener);
};

export const tellHere = (id: string): void => {
  for (const listener of listeners) listener(id);
};
