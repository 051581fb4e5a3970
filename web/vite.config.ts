/**
 * Bundles the page into web/dist. No inlined assets and no inline script: a strict content security policy serves it.
 */
import { defineConfig } from "vite";

export default defineConfig({
  root: import.meta.dirname,
  build: {
    outDir: "dist",
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: "es2022",
  },
});
