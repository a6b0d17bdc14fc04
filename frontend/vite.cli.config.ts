import { defineConfig } from "vite";

/** Bundles the walk for plain node: `node .cli/walk.cli.js < histories.jsonl`. */
export default defineConfig({
  publicDir: false,
  build: {
    ssr: "src/rules/walk.cli.ts",
    outDir: ".cli",
    target: "node20",
    minify: false,
  },
});
