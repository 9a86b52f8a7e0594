import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** One entry. gallery.html is served in development only: the build never sees it. */
export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  plugins: [react()],
  worker: { format: 'es' },
  build: {
    outDir: '../dist/web',
    emptyOutDir: true,
    // The service's policy allows no inline sources, so nothing is turned into a data URL.
    assetsInlineLimit: 0,
    rolldownOptions: { input: fileURLToPath(new URL('./index.html', import.meta.url)) },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:3000' } },
});
