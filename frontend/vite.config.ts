import { po } from "gettext-parser";
import { defineConfig, type Plugin } from "vite";
import { offline } from "./vite.offline.ts";

const server = process.env.CUE_LADDER_SERVER ?? "http://127.0.0.1:8080";

/** A gettext catalogue as a module: the English text to the translated forms. */
const catalogues: Plugin = {
  name: "catalogues",
  transform(text, id) {
    if (!id.endsWith(".po")) return null;
    const found = Object.values(po.parse(text).translations[""] ?? {})
      .filter((one) => one.msgid !== "" && one.comments?.flag?.includes("fuzzy") !== true)
      .filter((one) => one.msgstr.every((form) => form !== ""))
      .map((one) => [one.msgid, one.msgstr]);
    return { code: `export default ${JSON.stringify(Object.fromEntries(found))}`, map: null };
  },
};

/** What the first script asks for, and what that asks for: let the browser fetch all at once. */
const STARTS = ["app", "rolldown-runtime"];

const preloadStart: Plugin = {
  name: "preload-start",
  transformIndexHtml: {
    order: "post",
    handler: (_html, { bundle }) =>
      Object.values(bundle ?? {})
        .filter((file) => file.type === "chunk" && STARTS.includes(file.name))
        .map((file) => ({
          tag: "link",
          attrs: { rel: "modulepreload", crossorigin: true, href: `/${file.fileName}` },
          injectTo: "head" as const,
        })),
  },
};

/** What a start runs is made ready while it comes, off the page's thread, not call by call on it. */
const readyAtOnce: Plugin = {
  name: "ready-at-once",
  generateBundle: {
    order: "post",
    handler: (_options, bundle) => {
      for (const file of Object.values(bundle)) {
        if (file.type !== "chunk" || !["door", "app"].includes(file.name)) continue;
        file.code = `//# allFunctionsCalledOnLoad\n${file.code}`;
      }
    },
  },
};

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
      checks: { pluginTimings: false }, // how long each plugin took is nobody's warning
      output: {
        // the first script lists every later file by name: seven letters tell versions apart as well
        chunkFileNames: "assets/[name]-[hash:7].js",
        assetFileNames: "assets/[name]-[hash:7][extname]",
        codeSplitting: {
          // the door, with the stores and the language, stays apart from the app, which must not be
          // read before the language is known; the app stays in one piece, which the later screens
          // take from
          groups: [
            {
              name: "door",
              test: /src\/(main\.tsx|app\/stores\.ts|language\/(language|i18n)\.ts)$|preload-helper/,
              priority: 2,
            },
            { name: "app", test: /src\/start\.tsx$/, priority: 1 },
          ],
        },
      },
    },
  },
  worker: { format: "es" },
  server: { proxy: { "/api": server, "/p": server } },
  plugins: [
    catalogues,
    preloadStart,
    readyAtOnce,
    offline({
      name: "Cue Ladder",
      short_name: "Cue Ladder",
      description: "Fencing lessons, one cue at a time.",
      lang: "en",
      start_url: "/",
      scope: "/",
      display: "standalone",
      orientation: "any",
      background_color: "#101a20",
      theme_color: "#101a20",
      icons: [
        // no drawing: the browser makes a picture of it on the page's thread, while the coach waits
        { src: "/icon-192.png", sizes: "192x192", type: "image/png" },
        { src: "/icon-512.png", sizes: "512x512", type: "image/png", purpose: "any maskable" },
      ],
    }),
  ],
  test: {
    include: ["test/**/*.test.ts"],
    environment: "node",
    testTimeout: 300_000,
    hookTimeout: 300_000,
  },
} as Parameters<typeof defineConfig>[0]);
