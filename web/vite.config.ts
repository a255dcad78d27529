/** Builds the workbench into dist/web: a page, hashed assets, one worker for the analysis and one for the draws. */
import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  root: import.meta.dirname,
  base: '/',
  plugins: [react()],
  html: { cspNonce: '__NONCE__' },
  worker: { format: 'es' },
  build: { outDir: join(import.meta.dirname, '../dist/web'), emptyOutDir: true, target: 'es2023', assetsInlineLimit: 0, chunkSizeWarningLimit: 2000, modulePreload: { polyfill: false } },
});
