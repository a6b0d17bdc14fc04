import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { build, type Plugin, type ResolvedConfig } from "vite";

/**
 * What opens the app without a network: the manifest, and the service worker with the list of all
 * files of the build. A name in `assets/` holds its content's digest; others carry it as `revision`.
 */
export function offline(manifest: object): Plugin {
  let config: ResolvedConfig;
  return {
    name: "offline",
    apply: "build",
    configResolved(resolved) {
      config = resolved;
    },
    transformIndexHtml: () => [
      { tag: "link", attrs: { rel: "manifest", href: "/manifest.webmanifest" }, injectTo: "head" },
    ],
    generateBundle() {
      const source = JSON.stringify(manifest);
      this.emitFile({ type: "asset", fileName: "manifest.webmanifest", source });
    },
    async closeBundle() {
      const { root, build: asked } = config;
      const outDir = resolve(root, asked.outDir);
      await build({
        root,
        configFile: false,
        publicDir: false,
        logLevel: "warn",
        define: { "self.__WB_MANIFEST": JSON.stringify(filesIn(outDir)) },
        build: {
          outDir,
          target: asked.target,
          emptyOutDir: false,
          rolldownOptions: {
            input: "src/sw/worker.ts",
            output: { entryFileNames: "worker.js", format: "iife" },
          },
        },
      });
    },
  };
}

function filesIn(folder: string): { url: string; revision: string | null }[] {
  const revision = (url: string) =>
    createHash("sha256")
      .update(readFileSync(`${folder}/${url}`))
      .digest("hex")
      .slice(0, 32);
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((url) => /\.(html|js|css|svg|png|webmanifest)$/.test(url))
    .sort()
    .map((url) => ({ url, revision: url.startsWith("assets/") ? null : revision(url) }));
}
