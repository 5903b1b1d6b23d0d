// Builds the app, its workers and the service worker into dist/. JSX goes to preact by oxc; no plugin is needed.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';

const { version } = JSON.parse(readFileSync(new URL('package.json', import.meta.url), 'utf8')) as { version: string };
// The launchers give a hash of the sources: the same sources make the same bytes, so a rebuild offers nobody an update.
const build = process.env.ASFOUND_BUILD ?? 'no build id';

/** The workbook writer compresses in our own worker; the compressor's would be refused by the content policy. */
const zipHere = (): Plugin => ({
  name: 'zip-here',
  enforce: 'pre',
  resolveId: (source, importer) =>
    source === 'fflate' && importer?.includes('/write-excel-file/')
      ? fileURLToPath(new URL('src/files/zipHere.ts', import.meta.url))
      : null,
});

export default defineConfig({
  define: { __ASFOUND_VERSION__: JSON.stringify(`${version} (${build})`) },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    target: 'es2022',
    sourcemap: false,
    manifest: true,
    // What a screen needs is named by its own imports, and after the first visit all of it is on the phone: a list of
    // every screen's parts would only make the first load longer.
    modulePreload: {
      polyfill: false,
      resolveDependencies: (_, parts, { hostType }) => (hostType === 'html' ? parts : []),
    },
    chunkSizeWarningLimit: 1200,
  },
  worker: { format: 'es', plugins: () => [zipHere()] },
  plugins: [
    zipHere(),
    VitePWA({
      strategies: 'injectManifest',
      srcDir: 'sw',
      filename: 'sw.ts',
      registerType: 'prompt',
      injectRegister: false,
      includeManifestIcons: false,
      injectManifest: {
        // The web manifest is added by the plugin itself.
        globPatterns: ['**/*.{js,css,html,svg,png,woff2,wasm,xlsx,csv,json}'],
        globIgnores: ['**/.vite/**', 'help/**'],
        maximumFileSizeToCacheInBytes: 4 * 1024 * 1024,
      },
      manifest: {
        id: '/',
        name: 'Asfound',
        short_name: 'Asfound',
        description: 'Walk-around audits of broadcast racks and cabling, without a network',
        start_url: '/',
        display: 'standalone',
        orientation: 'any',
        background_color: '#f5f3ea',
        theme_color: '#f5f3ea',
        icons: [
          { src: '/icons/icon.svg', sizes: 'any', type: 'image/svg+xml' },
          { src: '/icons/icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: '/icons/icon-512.png', sizes: '512x512', type: 'image/png' },
          { src: '/icons/icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
        ],
      },
    }),
  ],
});
