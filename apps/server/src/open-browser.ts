import { spawn } from 'node:child_process';

/** Opens an address in the desktop's browser; does nothing on a machine without a desktop or under CI. */
export const openBrowser = (url: string): void => {
  const command = opener();
  if (command === undefined) return;
  const [program, ...given] = command;
  const child = spawn(program, [...given, url], { stdio: 'ignore', detached: true });
  child.on('error', () => undefined);
  child.unref();
};

const opener = (): [string, ...string[]] | undefined => {
  if (process.env.CI) return undefined;
  if (process.platform === 'darwin') return ['open'];
  if (process.platform === 'win32') return ['cmd', '/c', 'start', ''];
  return process.env.DISPLAY || process.env.WAYLAND_DISPLAY ? ['xdg-open'] : undefined;
};
