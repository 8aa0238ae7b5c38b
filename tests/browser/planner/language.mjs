// The page in German: every text of it is in the table and nothing else is; no English is left on a screen; all of it fits.
import { readFileSync, readdirSync } from "node:fs";
import { SCREENS, audited, fits, go, holds, kept, same, sample, settled, tappable } from "./stage.mjs";
import { settledStore } from "./ride.mjs";

const PAGE = new URL("../../../src/planner/page/", import.meta.url);
const GERMAN = { locale: "de-DE" };
/** Letters that a text must have before it is looked for on screens, without holes and beside them: shorter ones may be names. */
const TELLING = [4, 8];

/** The tables as the page imports them. */
async function tables(page) {
  return page.evaluate(async () => (await import(new URL("tables.js", location.href).href)).TABLES);
}

/** Texts of the modules, as they are given to what looks them up: the English text, or both of its forms. */
function given() {
  const all = new Map();
  const literal = '"((?:[^"\\\\]|\\\\.)*)"';
  for (const name of readdirSync(PAGE).filter((each) => /\.(js|html)$/.test(each))) {
    const source = readFileSync(new URL(name, PAGE), "utf8");
    const add = (text, many) => all.set(JSON.parse(`"${text}"`), many === undefined ? undefined : JSON.parse(`"${many}"`));
    for (const [, text] of source.matchAll(new RegExp(`(?<![\\w.])(?:say|saying|mark)\\(${literal}`, "g"))) add(text);
    for (const [, text, many] of source.matchAll(new RegExp(`(?<![\\w.])several\\([^"]*?, ${literal}, ${literal}`, "g"))) add(text, many);
    for (const [, text] of source.matchAll(/data-say="([^"]*)"/g)) add(text);
  }
  return all;
}

const holesOf = (text) => [...new Set(text.match(/\{\w+\}/g) ?? [])].sort().join();

/** What a rider can read or hear of the page, each text as it stands. */
const readable = (page) => page.evaluate(() => {
  const all = new Set();
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const node = walk.currentNode;
    if (!node.parentElement.closest("script, noscript, style, textarea, bdi")) all.add(node.data.trim());
  }
  for (const node of document.querySelectorAll("body *")) {
    for (const name of ["aria-label", "placeholder", "title", "alt", "aria-valuetext"]) if (node.hasAttribute(name)) all.add(node.getAttribute(name).trim());
  }
  return [...all, document.title].filter(Boolean);
});

/** English texts of the table as what they look like on a screen, without those that are the same in both languages. */
function english(texts) {
  const source = (text) => text.split(/(\{\w+\})/).map((part) => (/^\{n\}$/.test(part) ? "[\\d.,]+" : /^\{\w+\}$/.test(part) ? ".+" : part.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"))).join("");
  const telling = Object.keys(texts).filter((text) => text !== texts[text] && text.replace(/\{\w+\}|\W/g, "").length >= TELLING[Number(/\{/.test(text))]);
  return telling.map((text) => ({ text, is: new RegExp(`^${source(text)}$`) }));
}

/** Texts that are cut, or stick out of what they stand in. */
const cut = (page) => page.evaluate(() => [...document.querySelectorAll("button, a, label, legend, h1, h2, h3, .cell, .tabs span, .beside a, .words, .unit, .option span, dt, dd, th, td, p")].filter((node) => {
  if (!node.checkVisibility({ visibilityProperty: true }) || node.closest(".unseen, .peek, .skip, .across")) return false;
  const style = getComputedStyle(node);
  const { left, right, width } = node.getBoundingClientRect();
  if (width < 4) return false;
  // What is drawn sideways may be longer than the screen.
  const drawn = node.closest(".riders");
  return (!drawn && (right > innerWidth + 1 || left < -1)) || (style.display !== "inline" && node.scrollWidth > node.clientWidth + 1 && !drawn);
}).map((node) => `${node.tagName}.${node.className}: ${node.textContent.slice(0, 60)}`));

/** Words that do not fit their line and are broken in two. */
const broken = (page) => page.evaluate(() => {
  const all = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const node = walk.currentNode;
    if (!node.parentElement.checkVisibility({ visibilityProperty: true }) || node.parentElement.clientWidth === 1 || node.parentElement.closest(".unseen, .skip, bdi, code, textarea, script, option")) continue;
    for (const { 0: word, index } of node.data.matchAll(/[\p{L}\d]{3,}/gu)) {
      const range = new Range();
      range.setStart(node, index);
      range.setEnd(node, index + word.length);
      if (new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size > 1) all.push(word);
    }
  }
  return all;
});

export async function language(stage) {
  await stage.check("language: the table holds every text of the page, and no other", async (page) => {
    const { de } = await tables(page);
    const all = given();
    holds(all.size > 600, `only ${all.size} texts are found in the modules`);
    for (const [text, many] of all) {
      const told = de.texts[text];
      holds(told !== undefined, `the table lacks ${JSON.stringify(text)}`);
      holds(Array.isArray(told) === (many !== undefined), `${text}: one form or two?`);
      const pairs = many === undefined ? [[text, told]] : [[text, told[0]], [many, told[1]]];
      for (const [one, other] of pairs) same(holesOf(other), holesOf(one), `holes of ${JSON.stringify(one)}`);
    }
    same(Object.keys(de.texts).filter((text) => !all.has(text)), [], "texts of the table that the page does not say");
  });

  await stage.check("language: German on every screen, and all of it fits", async (page) => {
    const { de } = await tables(page);
    const banned = english(de.texts);
    const looked = async (what) => {
      const left = (await readable(page)).flatMap((text) => banned.filter(({ is }) => is.test(text)).map((each) => `${JSON.stringify(text)} is ${JSON.stringify(each.text)}`));
      same([...new Set(left)], [], `English on ${what}`);
      await fits(page, what);
      same(await cut(page), [], `cut texts on ${what}`);
      same(await broken(page), [], `broken words on ${what}`);
      await audited(page, what);
      await tappable(page, what);
      if (process.env.FARDEL_SHOTS) await page.screenshot({ path: `${process.env.FARDEL_SHOTS}/de-${what.replace(/\W+/g, "-")}.png`, fullPage: !what.startsWith("sheet") });
    };
    same(await page.evaluate(() => document.documentElement.lang), "de", "language of the document");
    await page.evaluate(() => document.querySelectorAll("main details").forEach((node) => { node.open = true; }));
    await looked("start");
    await sample(page, /Tammel/, /bewiesen/);
    for (const screen of SCREENS) {
      await go(page, screen);
      if (screen === "trail") await page.locator(".rows .row").first().waitFor();
      await page.evaluate(() => document.querySelectorAll("main details").forEach((node) => { node.open = true; }));
      await looked(screen);
    }
    const say = (text) => `text=${de.texts[text]}`;
    const sheets = [["kit", ".live"], ["kit", ".bag-card[open] .chip"], ["bike", say("Measure your bike")], ["have", ".things .row"], ["have", say("Add a thing of your own")], ["have", say("Paste or open a list")], ["trail", ".rows .row"], ["pack", ".weigh"], ["before", ".checks button"], ["after", say("Add: what broke")]];
    for (const [k, [screen, opener]] of sheets.entries()) {
      await go(page, screen);
      if (opener.includes("chip")) await page.locator(".bag-card summary").nth(1).tap();
      await page.locator(opener).first().tap();
      await page.locator("dialog h2").first().waitFor();
      await page.waitForTimeout(300);
      await looked(`sheet ${k}`);
      await page.getByRole("button", { name: de.texts.Close, exact: true }).tap();
    }
    await go(page, "limits");
    await page.getByRole("textbox", { name: "Gewicht der Ausrüstung, genau" }).fill("3,0");
    await page.keyboard.press("Tab");
    await page.getByText(de.texts["Cannot be met"], { exact: true }).waitFor();
    await looked("cannot be met");
    await page.setViewportSize({ width: 320, height: 740 });
    for (const screen of SCREENS) {
      await go(page, screen);
      await fits(page, `${screen} at 320 px`);
      same(await cut(page), [], `cut texts on ${screen} at 320 px`);
    }
    await page.evaluate(() => { document.documentElement.style.fontSize = "200%"; });
    for (const screen of [...SCREENS, "start"]) {
      await go(page, screen);
      await fits(page, `${screen} at 320 px, 200 %`);
    }
  }, GERMAN);

  await stage.check("language: a group in German", async (page) => {
    const { de } = await tables(page);
    await sample(page, /Tammel/, /bewiesen/);
    await go(page, "group");
    await page.getByRole("button", { name: de.texts["Add a rider"] }).tap();
    await page.locator(".lane").nth(1).waitFor({ timeout: 120_000 });
    await page.evaluate(() => document.querySelectorAll("main details").forEach((node) => { node.open = true; }));
    await fits(page, "group");
    same(await cut(page), [], "cut texts of a group");
    await audited(page, "group");
    if (process.env.FARDEL_SHOTS) await page.screenshot({ path: `${process.env.FARDEL_SHOTS}/de-group-of-two.png`, fullPage: true });
    const [trip] = await kept(page);
    same(trip.scenario.riders[1].name, "Fahrer 2", "the name of the second rider");
  }, GERMAN);

  await stage.check("language: numbers with a comma, typed with either sign", async (page) => {
    await sample(page, /Tammel/, /bewiesen/);
    holds(/\d,\d/.test(await page.locator(".live").textContent()), "no comma in the live line");
    await go(page, "limits");
    const limit = page.getByRole("textbox", { name: "Gewicht der Ausrüstung, genau" });
    for (const [typed, shown] of [["12,5", "12,5 kg"], ["13.5", "13,5 kg"]]) {
      await limit.fill(typed);
      await page.keyboard.press("Tab");
      await page.locator("#limit-kit_mass-shown").getByText(shown).waitFor();
      await settledStore(page, ([trip]) => trip.scenario.limits.kit_mass === `${typed.replace(",", ".")} kg`);
    }
    await page.getByRole("button", { name: "Gewicht der Ausrüstung, genau: mehr" }).tap();
    await settledStore(page, ([trip]) => trip.scenario.limits.kit_mass === "14 kg");
  }, GERMAN);

  await stage.check("language: chosen on the start screen, kept, and said with every call", async (page, { context }) => {
    const asked = [];
    page.on("request", (request) => /api\//.test(request.url()) && asked.push(request.postDataJSON().language));
    same(await page.evaluate(() => document.documentElement.lang), "en", "the language of the browser");
    await page.getByText("Deutsch", { exact: true }).tap();
    await page.getByText("1. Was fährst du?").waitFor();
    await page.reload();
    await page.getByText("1. Was fährst du?").waitFor();
    same(await page.evaluate(() => document.documentElement.lang), "de", "the language after a reload");
    await sample(page, /Tammel/, /bewiesen/);
    holds(asked.includes("de"), "no call says the language");
    await go(page, "start");
    await page.getByText("English", { exact: true }).tap();
    await page.getByText("1. What do you ride?").waitFor();
    await go(page, "kit");
    await settled(page);
    holds(/\d\.\d/.test(await page.locator(".live").textContent()), "no point in the live line");
    const tab = await context.newPage();
    await tab.goto(stage.server.address);
    await tab.getByText("Deutsch", { exact: true }).tap();
    await page.getByText("Packen", { exact: true }).first().waitFor();
    same(await page.evaluate(() => document.documentElement.lang), "de", "the language of the other tab");
  });

  await stage.check("language: what a rider sees finds the same failures in both", async (page) => {
    const found = async () => {
      await go(page, "trail");
      await page.locator(".rows .row").first().waitFor();
      const all = [];
      for (const sign of await page.locator(".signs button").all()) {
        await sign.tap();
        all.push(await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done([...document.querySelectorAll("main .rows .row")].map((row) => row.dataset.key).sort()))))));
        await sign.tap();
      }
      return all;
    };
    await sample(page);
    const before = await found();
    holds(before.flat().length > 20, "hardly anything is found");
    await go(page, "start");
    await page.getByText("Deutsch", { exact: true }).tap();
    await settled(page, /bewiesen/);
    same(await found(), before, "failures by signs");
  });
}
