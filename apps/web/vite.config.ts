import react from '@vitejs/plugin-react';
import { defineConfig, type HtmlTagDescriptor, type Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';

/** Makes the page installable, and everything of it at hand without a network after one visit. */
const offline = VitePWA({
  // A page that reloads by itself in the middle of a survey is worse than an old one.
  registerType: 'prompt',
  injectRegister: false,
  manifest: {
    name: 'Airledger',
    short_name: 'Airledger',
    description: 'One account of air and heat from the air handler to each room.',
    display: 'standalone',
    orientation: 'any',
    start_url: '/',
    background_color: '#f6f4ee',
    theme_color: '#1d2b30',
    icons: [
      { src: 'icon-192.png', sizes: '192x192', type: 'image/png' },
      { src: 'icon-512.png', sizes: '512x512', type: 'image/png' },
      { src: 'icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
    ],
  },
  workbox: {
    // The page of the very first visit is served from what was put by, too: its panels open offline.
    clientsClaim: true,
    globPatterns: ['**/*.{js,mjs,css,html,svg,png,woff2,wasm}'],
    maximumFileSizeToCacheInBytes: 8 * 2 ** 20,
    navigateFallbackDenylist: [/^\/api\//],
    runtimeCaching: [
      {
        // The demo houses; jobs and photos have a store of their own.
        urlPattern: /\/api\/demos(\/.*)?$/,
        handler: 'NetworkFirst',
        options: { cacheName: 'demo-houses', networkTimeoutSeconds: 3 },
      },
    ],
  },
});

/**
 * Lets the browser fetch and compile the page's scripts while the first script, which starts the engine, is on its way:
 * it asks for the page itself only when it runs.
 */
const pageAhead: Plugin = {
  name: 'page-ahead',
  transformIndexHtml: {
    order: 'post',
    handler: (_, { bundle = {} }) => {
      const chunks = Object.values(bundle).filter((output) => output.type === 'chunk');
      const page = chunks.find(({ facadeModuleId }) => facadeModuleId?.endsWith('/src/page.tsx'));
      if (!page) return [];
      return [page.fileName, ...page.imports].map(
        (file): HtmlTagDescriptor => ({
          tag: 'link',
          attrs: { rel: 'modulepreload', crossorigin: true, href: `/${file}` },
          injectTo: 'head',
        }),
      );
    },
  },
};

export default defineConfig({
  plugins: [react(), offline, pageAhead],
  worker: { format: 'es' },
  build: { target: 'es2022', chunkSizeWarningLimit: 700 },
  server: { proxy: { '/api': 'http://127.0.0.1:4310' } },
});
