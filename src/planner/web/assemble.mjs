/**
 * `node assemble.mjs PAGE ENGINE MODULES OUT`: the page, its scripts, its styles and the engine become one file, `planner.html`,
 * and a folder `site` for a static host, which can be installed as an app.
 *
 * The file runs its own script and style alone, each by its SHA-256; `wasm-unsafe-eval` is what a browser asks for before it
 * compiles WebAssembly at all, and lets no text be run as script. It may ask nobody for anything.
 */

import { createHash } from "node:crypto";
import { copyFileSync, cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

/** Largest that the file may be when it is packed for the way, in bytes. */
const LARGEST = 4 << 20;
/** What stands beside the page on a static host. */
const BESIDE = ["manifest.webmanifest", "service.js", "icon.svg", "icon-192.png", "icon-512.png"];

const [source, engine, modules, out] = process.argv.slice(2).map((path) => resolve(path));
/** The page with the module that the build makes. */
const page = join(out, "page");
rmSync(page, { recursive: true, force: true });
cpSync(source, page, { recursive: true });
copyFileSync(join(engine, "tables.js"), join(page, "tables.js"));
const here = dirname(fileURLToPath(import.meta.url));
const { buildSync } = createRequire(join(modules, "package.json"))("esbuild");

const hash = (text) => `'sha256-${createHash("sha256").update(text, "utf8").digest("base64")}'`;
const read = (name) => readFileSync(join(page, name), "utf8").replaceAll("\r", "");

/** Scripts in one, from what imports them all. */
function script(entry, format, alias = {}) {
  const made = buildSync({
    stdin: { contents: entry, resolveDir: here, loader: "js" },
    alias,
    bundle: true,
    minify: true,
    format,
    target: "es2022",
    charset: "utf8",
    write: false,
    logLevel: "error",
    // Where the engine would be fetched from; it comes in a message instead.
    define: format === "iife" ? { "import.meta.url": '""' } : {},
    external: [],
  });
  return made.outputFiles[0].text.trim();
}

const main = script(`import "./boot.js"; import ${JSON.stringify(join(page, "main.js"))};`, "esm");
// Of a page that is a file, a browser starts no module as a worker.
const worker = script('import "./worker.js";', "iife", { engine: join(engine, "engine.js") });
const packed = gzipSync(readFileSync(join(engine, "engine_bg.wasm")), { level: 9 }).toString("base64");

/** The page as one file; `beside`: with what stands beside it on a static host. */
function whole(beside) {
  let html = read("index.html");
  const policy = (style) => [
    "default-src 'none'",
    `script-src ${hash(main)} 'wasm-unsafe-eval'${beside ? " 'self'" : ""}`,
    `style-src ${style.map(hash).join(" ")}`,
    `img-src data: blob:${beside ? " 'self'" : ""}`,
    "worker-src blob:" + (beside ? " 'self'" : ""),
    `connect-src ${beside ? "'self'" : "'none'"}`,
    `manifest-src ${beside ? "'self'" : "'none'"}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  const styles = [];
  html = html.replace(/<link rel="stylesheet" href="([^"]+)"( media="[^"]+")?>/g, (_, name, media) => {
    styles.push(read(name));
    return `<style${media ?? ""}>${styles.at(-1)}</style>`;
  });
  const icon = `data:image/svg+xml;base64,${Buffer.from(read("icon.svg")).toString("base64")}`;
  html = html.replace('href="icon.svg"', `href="${icon}"`);
  if (!beside) html = html.replace(/<link rel="manifest"[^>]*>\n?/, "");
  html = html.replace(/<script type="module" src="main\.js"><\/script>\n?/, "");
  const meta = `<meta http-equiv="Content-Security-Policy" content="${policy(styles)}">
<meta name="referrer" content="no-referrer">
<meta name="fardel-host" content="worker">
<meta name="fardel-worker" content="" data-plain>
`;
  html = html.replace(/(<meta charset="utf-8">\n)/, (charset) => charset + meta);
  const data = (id, text) => `<script type="text/plain" id="${id}">${text}</script>\n`;
  if (/<\/script/i.test(worker) || /<\/script/i.test(main)) throw new Error("a script would end before its end");
  const scripts = data("engine", packed) + data("worker", worker) + `<script type="module">${main}</script>\n`;
  html = html.replace("</body>", () => scripts + "</body>");
  for (const left of [/<script[^>]* src=/, /<link rel="stylesheet"/, /https?:\/\/(?!www\.w3\.org\/)/]) {
    const found = left.exec(html.replace(packed, ""));
    if (found) throw new Error(`the file would load something: ${html.substring(found.index, found.index + 80)}`);
  }
  return html;
}

const site = join(out, "site");
rmSync(site, { recursive: true, force: true });
mkdirSync(site, { recursive: true });
writeFileSync(join(out, "planner.html"), whole(false));
writeFileSync(join(site, "index.html"), whole(true));
for (const name of BESIDE) copyFileSync(join(page, name), join(site, name));

const bytes = readFileSync(join(out, "planner.html"));
const small = gzipSync(bytes, { level: 9 }).length;
console.log(`${join(out, "planner.html")}: ${(bytes.length / 1e6).toFixed(2)} MB, ${(small / 1e6).toFixed(2)} MB packed`);
if (small > LARGEST) throw new Error(`more than ${LARGEST >> 20} MB`);
