import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";

const server = process.env.CUE_LADDER_SERVER ?? "http://127.0.0.1:8080";

interface Graph {
  getModuleInfo(id: string): { isEntry: boolean; importers: string[] } | null;
}

/** One file of all that the first screen needs: packed together it is smaller than in parts. */
function atStart(id: string, graph: Graph, seen = new Set<string>()): string | null {
  if (seen.has(id)) return null;
  seen.add(id);
  const found = graph.getModuleInfo(id);
  if (found === null) return null;
  const needed = found.isEntry || found.importers.some((one) => atStart(one, graph, seen) !== null);
  return needed ? "app" : null;
}

export default defineConfig({
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  define: {
    __BUILD__: JSON.stringify(
      process.env.CUE_LADDER_BUILD ?? new Date().toISOString().slice(0, 16),
    ),
  },
  build: {
    outDir: "../backend/cueladder/static",
    emptyOutDir: true,
    target: "es2022",
    // the page runs under `default-src 'self'`: nothing may be inlined
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      output: { codeSplitting: { groups: [{ name: (id, graph) => atStart(id, graph) }] } },
    },
  },
  worker: { format: "es" },
  server: { proxy: { "/api": server, "/p": server } },
  plugins: [
    VitePWA({
      strategies: "injectManifest",
      srcDir: "src/sw",
      filename: "worker.ts",
      injectRegister: null,
      registerType: "prompt",
      injectManifest: { globPatterns: ["**/*.{html,js,css,svg,png,webmanifest}"] },
      manifest: {
        name: "Cue Ladder",
        short_name: "Cue Ladder",
        description: "Fencing lessons, one cue at a time.",
        start_url: "/",
        display: "standalone",
        orientation: "any",
        background_color: "#101a20",
        theme_color: "#101a20",
        icons: [
          { src: "/icon.svg", sizes: "any", type: "image/svg+xml" },
          { src: "/icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "/icon-512.png", sizes: "512x512", type: "image/png", purpose: "any maskable" },
        ],
      },
    }),
  ],
  test: { include: ["test/**/*.test.ts"], environment: "node" },
} as Parameters<typeof defineConfig>[0]);
