/** Path of a browser that can be run, or undefined; CHROMIUM_PATH wins when it is set. */
export function findChromium(env?: NodeJS.ProcessEnv): string | undefined;
