import { fileURLToPath } from 'node:url';

/** Bundles a program of the workspace, with all that it imports, as JavaScript for Node into an emptied folder. */
export const buildForNode = async (entry: string, folder: string): Promise<void> => {
  // Loaded only where something is to be built.
  const { build } = await import('vite');
  await build({
    configFile: false,
    logLevel: 'warn',
    root: fileURLToPath(new URL('../', import.meta.url)),
    build: { ssr: entry, outDir: folder, emptyOutDir: true, minify: false },
    ssr: { noExternal: true, target: 'node' },
  });
};
