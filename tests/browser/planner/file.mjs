// The planner with its own engine, from a file and from a static host, without a network: `node tests/browser/planner/file.mjs FOLDER`,
// FOLDER being where `.ci/planner-html` wrote.
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { ride, settledStore } from "./ride.mjs";
import { Stage, go, holds, same, sample, settled } from "./stage.mjs";

const folder = resolve(process.argv[2]);
const MEDIA = { html: "text/html", js: "text/javascript", svg: "image/svg+xml", png: "image/png", webmanifest: "application/manifest+json" };

/** A host that only has files. */
async function statics(root) {
  const server = createServer(async (request, answer) => {
    const path = new URL(request.url, "http://host").pathname.replace(/\/$/, "/index.html");
    try {
      const body = await readFile(join(root, path));
      answer.writeHead(200, { "content-type": MEDIA[path.split(".").at(-1)] ?? "application/octet-stream" }).end(body);
    } catch {
      answer.writeHead(404).end();
    }
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  return { address: `http://127.0.0.1:${server.address().port}/`, stop: () => { server.close(); server.closeAllConnections(); } };
}

/** What only an engine of its own can show to work. */
async function engine(stage) {
  await stage.check("German without a network, by the file's own tables", async (page) => {
    await page.getByText("1. Was fährst du?").waitFor();
    await sample(page, /Tammel/, /bewiesen/);
    holds(/\d,\d/.test(await page.locator(".live").textContent()), "no comma in the live line");
    await go(page, "start");
    await page.getByText("English", { exact: true }).tap();
    await page.getByText("1. What do you ride?").waitFor();
  }, { locale: "de-DE" });

  await stage.check("a limit is dragged, the last one is in force", async (page) => {
    await sample(page);
    await go(page, "limits");
    const slider = page.locator("#limit-kit_mass");
    await slider.scrollIntoViewIfNeeded();
    const { x, y, width, height } = await slider.boundingBox();
    await page.mouse.move(x + width * 0.6, y + height / 2);
    await page.mouse.down();
    for (let step = 1; step <= 30; step++) await page.mouse.move(x + width * (0.6 - 0.008 * step), y + height / 2);
    await page.mouse.up();
    const last = await page.locator("#limit-kit_mass-shown").textContent();
    const [trip] = await settledStore(page, (trips) => {
      const [{ answerState, answerFor, scenario }] = trips;
      return answerState === "proven" && `${parseFloat(scenario.limits.kit_mass).toFixed(1)} kg` === last && JSON.parse(answerFor)[0].limits.kit_mass === scenario.limits.kit_mass;
    });
    same(`${parseFloat(trip.scenario.limits.kit_mass).toFixed(1)} kg`, last, "the last limit is in force");
    same(trip.answer.totals.mass_limit_g, parseFloat(trip.scenario.limits.kit_mass) * 1000, "the answer is that of the last limit");
  });

  await stage.check("one kit for two, and who carries what", async (page) => {
    await sample(page);
    await go(page, "group");
    await page.getByRole("button", { name: "Add a rider" }).tap();
    await page.locator(".lane").nth(1).waitFor();
    await settled(page, /good so far|proven/);
    const [trip] = await settledStore(page, (trips) => trips[0].answer?.riders?.length === 2);
    holds(trip.answer.riders.every((rider) => rider.bags.length), "a rider without bags");
  });

  await stage.check("a track gives legs and its picture", async (page) => {
    await sample(page);
    await go(page, "trip");
    const points = [[46, 7], [46.3, 7.2], [46.6, 7.6]].map(([lat, lon]) => `<trkpt lat="${lat}" lon="${lon}"/>`).join("");
    const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.getByText("Legs from a track").tap()]);
    await chooser.setFiles({ name: "over.gpx", mimeType: "application/gpx+xml", buffer: Buffer.from(`<?xml version="1.0"?><gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${points}</trkseg></trk></gpx>`) });
    await page.waitForFunction(() => document.querySelector(".way-picture img")?.naturalWidth > 0);
  });
}

const file = await Stage.at({ address: pathToFileURL(join(folder, "planner.html")).href, stop: () => undefined }, { offline: true });
await ride(file);
await engine(file);
await file.close();

const host = await statics(join(folder, "site"));
const site = await Stage.at(host, {});
site.passed = file.passed;
site.failed = file.failed;
await site.check("from a static host: installable, and all there without a network", async (page, { context, outside }) => {
  const manifest = await page.evaluate(async () => (await fetch(document.querySelector('link[rel="manifest"]').href)).json());
  holds(manifest.icons.some(({ sizes }) => sizes === "512x512") && manifest.display === "standalone" && manifest.start_url, JSON.stringify(manifest));
  await page.evaluate(() => navigator.serviceWorker.ready);
  const devtools = await context.newCDPSession(page);
  const { installabilityErrors } = await devtools.send("Page.getInstallabilityErrors");
  same(installabilityErrors.filter(({ errorId }) => errorId !== "in-incognito"), [], "what keeps it from being installed");
  host.stop();
  await context.setOffline(true);
  await page.reload();
  await page.waitForSelector(".five");
  await sample(page);
  await settledStore(page, (trips) => trips[0].answerState === "proven");
  same(outside, [], "requests elsewhere");
});
await site.close();
