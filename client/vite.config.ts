import { defineConfig } from 'vite';

const pages = ['index', 'sawyer', 'wheel', 'codes', 'record', 'voice', 'join'];

export default defineConfig({
  root: import.meta.dirname,
  base: '/',
  build: {
    outDir: 'dist',
    emptyOutDir: true,
    target: 'es2022',
    // The pages' content policy forbids data: addresses, so that nothing may be folded into the styles.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: { input: Object.fromEntries(pages.map((page) => [page, `${import.meta.dirname}/${page}.html`])) },
  },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
});
