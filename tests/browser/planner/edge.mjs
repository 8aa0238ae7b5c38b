// Links, hostile names, many things, many riders, no store, two tabs.
import { fits, go, holds, same, sample, settled } from "./stage.mjs";
import { settledStore } from "./ride.mjs";

/** Turns the text after it around, hides, and looks like markup. */
const HOSTILE = "\u202Eevil\u2066 <img src=x onerror=alert(1)> \u200F\u0000\uFFFF ${x} '\"& ".repeat(3).slice(0, 110);

export const link = async (page) => {
  await go(page, "share");
  await page.waitForFunction(() => document.querySelector("textarea")?.value.includes("#trip="));
  return page.locator("textarea").inputValue();
};

/** Opens an address in a tab that is new to the page. */
async function inNewTab(context, address) {
  const tab = await context.newPage();
  await tab.goto(address);
  await tab.waitForSelector(".screen h1");
  return tab;
}

export async function edge(stage) {
  await stage.check("a link brings the whole trip", async (page, { context, address }) => {
    await sample(page);
    const [mine] = await settledStore(page, (trips) => trips[0].answerState === "proven");
    const made = await link(page);
    const token = /token=([\w-]+)/.exec(address)[1];
    const tab = await inNewTab(context, made.replace("#", `#token=${token}&`));
    const trips = await settledStore(tab, (all) => all.length === 2);
    same(trips[0].scenario, mine.scenario, "the scenario of the link");
    same(await tab.evaluate(() => location.hash.includes("trip=")), false, "the address still holds the trip");
  });

  await stage.check("links: damaged, cut, newer, a bomb, no trip", async (page, { context, address }) => {
    const token = /token=([\w-]+)/.exec(address)[1];
    await sample(page);
    const made = await link(page);
    const text = made.split("#trip=")[1];
    const bomb = await page.evaluate(async () => {
      const zeros = new Blob([new Uint8Array(60_000_000)]).stream().pipeThrough(new CompressionStream("deflate-raw"));
      const bytes = new Uint8Array(await new Response(zeros).arrayBuffer());
      let letters = "";
      for (const byte of bytes) letters += String.fromCharCode(byte);
      return btoa(letters).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
    });
    const middle = text.length >> 1;
    const cases = [
      [text.slice(0, middle) + (text[middle] === "A" ? "B" : "A") + text.slice(middle + 1), /damaged/],
      [text.slice(0, -20), /damaged/],
      [text.replace(/^1\./, "2."), /newer version/],
      [`1.0.${bomb}`, /more than a trip|damaged/],
      ["1.abc.AAAA", /damaged|no trip/],
    ];
    for (const [body, expected] of cases) {
      const tab = await inNewTab(context, `${made.split("#")[0]}#token=${token}&trip=${body}`);
      const said = await tab.locator("[role=alert]").first().textContent();
      holds(expected.test(said), `${body.slice(0, 20)}: ${said}`);
      await tab.close();
    }
  });

  await stage.check("a link of 10 kB", async (page, { context }) => {
    await sample(page);
    await settledStore(page, (trips) => trips.length === 1);
    await many(page, 420);
    const made = await link(page);
    holds(made.length > 10_000, `only ${made.length} letters`);
    const tab = await inNewTab(context, made);
    await settledStore(tab, (all) => all.length === 2 && Object.keys(all[0].scenario.riders[0].owns).length > 400);
  });

  await stage.check("hostile names stay text", async (page, { outside }) => {
    await sample(page);
    await go(page, "trip");
    await page.getByLabel("Name", { exact: true }).fill(HOSTILE);
    await page.keyboard.press("Tab");
    await go(page, "bike");
    await page.getByLabel("Name", { exact: true }).fill(HOSTILE.slice(0, 60));
    await page.keyboard.press("Tab");
    await go(page, "have");
    await page.getByText("Add a thing of your own").tap();
    await page.locator("dialog").getByLabel("Name").fill(HOSTILE.slice(0, 70));
    await page.getByText("Take it along").tap();
    for (const screen of ["kit", "trip", "bike", "have", "pack", "share", "start"]) {
      await go(page, screen);
      await fits(page, screen);
      same(await page.locator("#page img, #page script, dialog img").count(), 0, `${screen}: elements out of names`);
    }
    const isolated = await page.evaluate(() => [...document.querySelectorAll("bdi")].every((node) => getComputedStyle(node).unicodeBidi.includes("isolate")));
    holds(isolated, "a name is not isolated");
    same(outside, [], "requests elsewhere");
  });

  await stage.check("three hundred things of one's own", async (page) => {
    await sample(page);
    await settledStore(page, (trips) => trips.length === 1);
    await many(page, 300);
    await go(page, "have");
    const began = Date.now();
    await page.fill("#find-thing", "thing 299");
    await page.locator(".results .things li").first().waitFor();
    holds(Date.now() - began < 3000, "searching is slow");
    await fits(page, "have");
    await go(page, "left");
    await fits(page, "left");
  });

  await stage.check("twelve riders, a thing dragged and moved by button", async (page) => {
    await sample(page);
    const [one] = await settledStore(page, (trips) => trips[0].answerState === "proven");
    await page.route("**/api/split", (route) => route.fulfill({ contentType: "application/x-ndjson", body: `${JSON.stringify({ state: "good so far", bound_h: 1, answer: twelve(one.answer) })}\n` }));
    await go(page, "group");
    for (let k = 1; k < 12; k++) await page.getByRole("button", { name: "Add a rider" }).tap();
    await page.locator(".lane").nth(11).waitFor();
    same(await page.locator(".lane").count(), 12, "lanes");
    same(await page.getByRole("button", { name: "Add a rider" }).count(), 0, "a thirteenth can be added");
    await fits(page, "group");
    const chip = page.locator(".lane").first().locator(".chip").first();
    await chip.scrollIntoViewIfNeeded();
    await chip.tap();
    await page.locator("dialog .row").first().tap();
    await page.getByText("1 thing moved by hand").waitFor();
    await page.locator(".said button").tap();
    await page.getByText("1 thing moved by hand").waitFor({ state: "detached" });
    await drag(page);
    await page.getByText("1 thing moved by hand").waitFor();
  }, { height: 1400 });

  await stage.check("no store: it is said, and a file is offered", async (page) => {
    await page.getByText("Not saved").waitFor();
    await sample(page);
    const [file] = await Promise.all([page.waitForEvent("download"), page.getByText("Save a file").tap()]);
    holds(file.suggestedFilename().endsWith(".yaml"), file.suggestedFilename());
    await fits(page, "not saved");
  }, { before: (page) => page.addInitScript(() => { Object.defineProperty(globalThis, "indexedDB", { value: { open: () => { throw new DOMException("denied", "SecurityError"); } } }); }) });

  await stage.check("two tabs show one trip", async (page, { context, address }) => {
    await sample(page);
    await settledStore(page, (trips) => trips[0].answerState === "proven");
    const other = await inNewTab(context, `${address.replace("#", "#/pack&")}`);
    await other.goto(address);
    await other.evaluate(() => { location.hash = "#/start"; });
    await other.locator(".pair .row").first().tap();
    await go(other, "pack");
    await go(page, "pack");
    await page.locator(".pack-row").first().tap();
    await other.locator(".folded").first().waitFor();
    await other.getByText("Changed in another tab").waitFor();
  });

  await stage.check("two tabs change one trip at once: both changes are kept", async (page, { context, address }) => {
    await sample(page);
    await settledStore(page, (trips) => trips[0].answerState === "proven");
    const other = await inNewTab(context, address);
    await other.locator(".pair .row").first().tap();
    for (const tab of [page, other]) await go(tab, "pack");
    await page.waitForTimeout(600);
    // Deaf to one another, as when one of them is asleep.
    await Promise.all([page, other].map((tab) => tab.evaluate(() => { BroadcastChannel.prototype.postMessage = () => undefined; })));
    await page.locator(".pack-row").nth(0).tap();
    await settledStore(page, (trips) => Object.keys(trips[0].ticks).length === 1);
    await other.locator(".pack-row").nth(1).tap();
    await other.getByText("Changed in two tabs at once").waitFor();
    const trips = await settledStore(other, (all) => all.length === 2);
    const ticked = trips.map((trip) => Object.keys(trip.ticks).join());
    holds(ticked.every(Boolean) && ticked[0] !== ticked[1], `ticked: ${ticked.join(" and ")}`);
    // Whoever goes on in the first tab writes over nothing.
    await page.locator(".pack-bag > .boxes .pack-row").first().tap();
    await settledStore(page, (all) => all.length === 2 && all.some((trip) => Object.keys(trip.ticks).length === 2));
  });

  await stage.check("a broken file is refused with its line", async (page) => {
    const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.getByText("A file of yours").tap()]);
    await chooser.setFiles({ name: "bad.yaml", mimeType: "text/yaml", buffer: Buffer.from("name: x\ntrip:\n  style: [camping\nriders: 3\n") });
    const said = await page.locator("[role=alert]").textContent();
    holds(/bad\.yaml/.test(said) && /line \d/.test(said), said);
    const [again] = await Promise.all([page.waitForEvent("filechooser"), page.getByText("A file of yours").tap()]);
    await again.setFiles({ name: "odd.yaml", mimeType: "text/yaml", buffer: Buffer.from("name: odd\ntrip:\n  style: campng\n  legs: [{name: a, days: 1, hours_to_help: 4 h, km: {gravel: 40}}]\nriders: [{name: Tove, bike: single-250-trail, riding_skill: novice, repair_skill: handy, mass: 80 kg}]\n") });
    await page.locator(".at-trip .faults").waitFor();
    const told = await page.locator(".at-trip .faults").textContent();
    holds(/campng/.test(told) && /expected/.test(told) && /did you mean camping/.test(told), told);
  });
}

/** Puts things of one's own into the kept trip, and opens it anew. */
async function many(page, count) {
  // A page that is still saving writes over what is put beside it; then once more.
  for (let tries = 0; tries < 5; tries += 1) {
    await put(page, count);
    const [trip] = await settledStore(page, (trips) => trips.length > 0);
    if (Object.keys(trip.scenario.riders[0].owns).length >= count) return;
  }
}

async function put(page, count) {
  await settledStore(page, (trips) => trips[0].answerState === "proven");
  await page.evaluate((count) => new Promise((done, failed) => {
    const opening = indexedDB.open("fardel");
    opening.onsuccess = () => {
      const store = opening.result.transaction("trips", "readwrite").objectStore("trips");
      const all = store.getAll();
      all.onsuccess = () => {
        const [trip] = all.result;
        const { scenario } = trip;
        scenario.catalogue = { items: {} };
        for (let k = 0; k < count; k++) {
          const letters = [...crypto.getRandomValues(new Uint8Array(14))].map((byte) => (byte % 36).toString(36)).join("");
          scenario.catalogue.items[`own-${k}`] = { name: `thing ${k} ${letters}`, kind: "comfort", mass: `${50 + k} g`, volume: "80 mL", longest: "90 mm", price: "0 USD", basis: "measured" };
          scenario.riders[0].owns[`own-${k}`] = 1;
        }
        trip.rev += 1;
        store.put(trip);
        store.transaction.oncomplete = done;
      };
    };
    opening.onerror = () => failed(opening.error);
  }), count);
  await page.reload();
  await page.waitForSelector(".at-kit");
  await settled(page, /proven|good so far/);
}

/** An invented answer of `split`: one kit, carried twelve times. */
function twelve(answer) {
  const names = [answer.rider, ...Array.from({ length: 11 }, (_, k) => `Rider ${k + 2}`)];
  return {
    ...answer, totals: { ...answer.totals, mass_limit_g: null },
    riders: names.map((rider) => ({ rider, bike: answer.bike, roles: [], mass_g: answer.totals.mass_g, fair_share_g: answer.totals.mass_g, mass_limit_g: answer.totals.mass_limit_g, bags: answer.bags, load: answer.loads[0] })),
    if_one_leaves: names.map((rider) => ({ rider, hours_saved_with_all: 2, hours_saved_with_rest: 1, share_kept: 0.5, no_longer_mended: ["rear tyre punctured"] })),
    only_copies: [], apart: [], checks: [{ bikes: [answer.bike], riders: names, checks: answer.checks }],
  };
}

/** Drags the first thing of the first rider to the second. */
async function drag(page) {
  const chip = page.locator(".lane").first().locator(".chip").first();
  await page.locator(".lane").first().evaluate((node) => node.scrollIntoView({ block: "start" }));
  const from = await chip.boundingBox();
  const to = await page.locator(".lane").nth(1).boundingBox();
  await page.mouse.move(from.x + 10, from.y + 10);
  await page.mouse.down();
  for (let step = 1; step <= 10; step++) await page.mouse.move(from.x + 10, from.y + 10 + ((to.y + 30 - from.y) * step) / 10);
  await page.mouse.up();
}
