// The planner in a browser: the server, a page on a phone, and how checks are counted. Nothing here goes beyond this machine.
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { chromium } from "playwright-core";

const FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync"];
/** How long a first kit may take on a machine that does other things, in milliseconds. */
export const PATIENCE = 120_000;

/** Starts the program. `more` are arguments of `serve`. @returns {Promise<{address: string, stop: () => void}>} */
export function serve(program, more = []) {
  const from = process.env.FARDEL_PAGE_FROM;
  const server = spawn(program, ["serve", "--no-open", ...more, ...(from ? ["--page-from", from] : [])], { stdio: ["ignore", "pipe", "inherit"] });
  return new Promise((done, failed) => {
    let told = "";
    server.stdout.on("data", (part) => {
      told += part;
      const address = /http:\/\/\S+/.exec(told)?.[0];
      if (address) done({ address, stop: () => server.kill("SIGTERM") });
    });
    server.on("exit", (code) => failed(new Error(`serve ended with ${code}: ${told}`)));
  });
}

/** A stage for checks: one browser, one server. */
export class Stage {
  passed = 0;
  failed = 0;

  static async open(program) {
    return Stage.at(await serve(program));
  }

  /** Checks of a page that is there already. `options` are those of every phone. */
  static async at(server, options = {}) {
    const stage = new Stage();
    stage.server = server;
    stage.options = options;
    stage.browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: FLAGS });
    return stage;
  }

  async close() {
    await this.browser.close();
    this.server.stop();
    console.log(`${this.passed} passed, ${this.failed} failed`);
    process.exitCode = this.failed ? 1 : 0;
  }

  /** Counts a check; the page it gets is a fresh phone. Whatever the console complains of fails it. */
  async check(name, work, options = {}) {
    const only = process.argv[3];
    if (only && !name.includes(only)) return;
    const phone = await this.phone({ ...this.options, ...options });
    const started = Date.now();
    try {
      await work(phone.page, phone);
      const mute = () => document.querySelector(".live") && !document.getElementById("said");
      if (await phone.page.evaluate(mute).catch(() => false)) throw new Error("the place where words pass by is gone");
      if (phone.complaints.length) throw new Error(`the console says: ${phone.complaints.join(" | ")}`);
      this.passed += 1;
      console.log(`ok      ${name} (${((Date.now() - started) / 1000).toFixed(1)} s)`);
    } catch (error) {
      this.failed += 1;
      console.log(`FAILED  ${name}: ${error.stack ?? error}`);
      await phone.page.screenshot({ path: `${process.env.FARDEL_SHOTS ?? "/tmp"}/failed-${name.replace(/\W+/g, "-")}.png` }).catch(() => undefined);
    }
    await phone.context.close();
  }

  /** A page on a phone of 360 px, touch alone. */
  async phone({ width = 360, height = 740, open = true, before, allowed = [], ...more } = {}) {
    const context = await this.browser.newContext({ viewport: { width, height }, hasTouch: true, isMobile: width < 700, reducedMotion: "reduce", ...more });
    const page = await context.newPage();
    const complaints = [];
    const outside = [];
    const { origin } = new URL(this.server.address);
    const here = origin === "null" ? this.server.address : origin;
    // A refused call is an answer: the browser notes its status all the same.
    const fine = (text) => /status of (422|404)/.test(text) || allowed.some((each) => each.test(text));
    page.on("console", (message) => message.type() === "error" && !fine(message.text()) && complaints.push(message.text()));
    page.on("pageerror", (error) => complaints.push(String(error.stack ?? error)));
    page.on("request", (request) => !request.url().startsWith(here) && !/^(data|blob):/.test(request.url()) && outside.push(request.url()));
    page.setDefaultTimeout(20_000);
    page.setDefaultNavigationTimeout(PATIENCE);
    if (before) await before(page, context);
    if (open) {
      await page.goto(this.server.address);
      await page.waitForSelector(".five");
    }
    return { context, page, complaints, outside, address: this.server.address };
  }
}

/** Goes to a screen as its address does. */
export async function go(page, screen) {
  await page.evaluate((to) => { location.hash = `#/${to}`; }, screen);
  await page.waitForSelector(`.at-${screen}`);
}

/** Opens a shipped trip and waits for its kit. @param {RegExp} [until] how sure it must be */
export async function sample(page, title = "A day in the Tammel hills", until = /proven/) {
  await page.getByText(title).tap();
  await settled(page, until);
}

/** Shuts the sheet that is open. */
export const shut = (page) => page.getByRole("button", { name: "Close", exact: true }).tap();

/** Waits until the live line says so. */
export const settled = (page, until = /proven/) =>
  page.waitForFunction((source) => new RegExp(source).test(document.querySelector(".live .state")?.textContent ?? ""), until.source, { timeout: PATIENCE });

/** What the page keeps of its trip, as it stands in the browser's store. */
export const kept = (page) => page.evaluate(() => new Promise((done, failed) => {
  const opening = indexedDB.open("fardel");
  opening.onerror = () => failed(opening.error);
  opening.onsuccess = () => {
    const all = opening.result.transaction("trips").objectStore("trips").getAll();
    all.onsuccess = () => done(all.result.sort((a, b) => b.changed - a.changed));
  };
}));

export function same(found, expected, what) {
  const [a, b] = [JSON.stringify(found), JSON.stringify(expected)];
  if (a !== b) throw new Error(`${what}: found ${a}, expected ${b}`);
}

export function holds(true_, what) {
  if (!true_) throw new Error(what);
}

/** Is nothing wider than the screen? */
export async function fits(page, what) {
  const { wide, room } = await page.evaluate(() => ({ wide: document.documentElement.scrollWidth, room: document.documentElement.clientWidth }));
  holds(wide <= room, `${what}: ${wide} wide on ${room}`);
}

export const SCREENS = ["kit", "trip", "group", "share", "bike", "have", "limits", "left", "pack", "before", "trail", "after"];

/** The audit of accessibility: nothing of WCAG A and AA may be wrong. */
export async function audited(page, what) {
  await page.evaluate(readFileSync(new URL("../node_modules/axe-core/axe.min.js", import.meta.url), "utf8") + ";true");
  const wrong = await page.evaluate(async () => {
    const found = await globalThis.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] });
    return found.violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(" ; ")}`);
  });
  holds(!wrong.length, `${what}: ${wrong.join("\n   ")}`);
}

/** Whatever can be tapped is at least 48 px high and wide, or has a label that is. */
export async function tappable(page, what) {
  const small = await page.evaluate(() => [...document.querySelectorAll("button, a[href], input:not([type=range]), select, textarea, summary, [role=button]")].filter((node) => {
    if (node.matches(".skip") || !node.checkVisibility({ visibilityProperty: true })) return false;
    const around = node.matches("input[type=checkbox], input[type=radio]") ? node.closest("label") : node;
    const { width, height } = (around ?? node).getBoundingClientRect();
    const inText = node.matches("a") && getComputedStyle(node).display === "inline";
    return !inText && (Math.round(width) < 48 || Math.round(height) < 48);
  }).map((node) => `${node.outerHTML.slice(0, 120)} ${Math.round(node.getBoundingClientRect().width)}x${Math.round(node.getBoundingClientRect().height)}`));
  holds(!small.length, `${what}: too small to tap: ${small.slice(0, 4).join(" ; ")}`);
}
