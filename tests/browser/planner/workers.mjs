// The page with the engine in a worker: here a worker that asks the server, so that only the messages are tested.
import { go, holds, same, sample, settled, shut } from "./stage.mjs";
import { settledStore } from "./ride.mjs";

/** A limit at which the worker hears no more. */
const DEAF = "5 kg";

/** What runs in the worker: messages to calls, and back. */
const WORKER = `
const token = new URL(location.href).searchParams.get("token");
onmessage = async ({ data }) => {
  const { id, call, body } = data;
  if (data.cancel) return;
  if (call === "ping") return postMessage({ id, done: null });
  if (call === "plan" && body.scenario.limits?.kit_mass === "${DEAF}") for (;;);
  const answer = await fetch("/api/" + call, { method: "POST", headers: { authorization: "Bearer " + token, "content-type": "application/json" }, body: JSON.stringify(body) });
  if (!answer.ok) return postMessage({ id, refused: await answer.json() });
  if (!/ndjson/.test(answer.headers.get("content-type"))) return postMessage({ id, done: await answer.json() });
  for (const line of (await answer.text()).split("\\n").filter(Boolean)) {
    const part = JSON.parse(line);
    postMessage(part.refused ? { id, refused: part.refused } : { id, part });
  }
  postMessage({ id, done: null });
};`;

/** The bike screen: a bag dropped onto the picture, loads by the lever, a size measured. */
export async function bike(stage) {
  await stage.check("a bag is dropped onto the bike, loads as the engine has them, a size is measured", async (page) => {
    await sample(page);
    const [before] = await settledStore(page, (trips) => trips[0].answerState === "proven");
    await go(page, "bike");
    const { loaded } = before.answer.loads[0];
    const words = await page.locator(".wheels").textContent();
    holds(words.includes(`${(loaded.front_g / 1000).toFixed(1)} kg`) && words.includes(`${(loaded.rear_g / 1000).toFixed(1)} kg`), `${words} against ${JSON.stringify(loaded)}`);
    await page.getByText("Put on a bag").tap();
    const grip = page.locator(".bags-off li", { hasText: "tool tube" }).locator(".grip");
    await page.locator(".drop-place").evaluate((node) => node.scrollIntoView({ block: "start" }));
    const from = await grip.boundingBox();
    const picture = await page.locator(".drop-place svg").boundingBox();
    await page.mouse.move(from.x + 20, from.y + 20);
    await page.mouse.down();
    for (let step = 1; step <= 8; step++) await page.mouse.move(from.x + 20 + ((picture.x + 150 - from.x) * step) / 8, from.y + 20 + ((picture.y + 120 - from.y) * step) / 8);
    await page.mouse.up();
    await settledStore(page, (trips) => trips[0].scenario.riders[0].bags.filter((id) => id === "tool-tube").length === 1);
    await page.getByText("Measure your bike").tap();
    await page.locator("dialog").getByLabel("what takes the rear wheel off").selectOption("hex 27 mm");
    await settledStore(page, (trips) => trips[0].scenario.catalogue?.bikes?.["my-bike"]?.attributes?.rear_axle === "hex 27 mm" && trips[0].scenario.riders[0].bike === "my-bike");
    await shut(page);
    await settled(page, /proven|good so far/);
    await settledStore(page, (trips) => trips[0].answerState === "proven" && trips[0].answer.bike.endsWith("measured"));
  }, { height: 1900 });
}

export async function workers(stage) {
  const token = /token=([\w-]+)/.exec(stage.server.address)[1];
  const before = async (page) => {
    await page.route("**/", async (route) => {
      const answer = await route.fetch();
      const html = (await answer.text()).replace("<title>", `<meta name="fardel-host" content="worker"><meta name="fardel-worker" content="worker.js?token=${token}"><title>`);
      await route.fulfill({ response: answer, body: html });
    });
    await page.route("**/worker.js*", (route) => route.fulfill({ contentType: "text/javascript", body: WORKER }));
  };
  await stage.check("the same through workers; one that does not hear is ended", async (page) => {
    await sample(page);
    const [one] = await settledStore(page, (trips) => trips[0].answerState === "proven");
    same(one.answer.rider, "Tove", "the answer of the worker");
    await go(page, "limits");
    const limit = page.getByRole("textbox", { name: "Mass of the kit, exactly" });
    await limit.fill("5");
    await page.keyboard.press("Tab");
    await page.waitForTimeout(1200);
    // The quick worker still answers while the other is busy.
    await go(page, "trail");
    await page.locator(".rows .row").first().waitFor();
    await go(page, "limits");
    await limit.fill("8");
    await page.keyboard.press("Tab");
    await settled(page, /proven/);
    const [two] = await settledStore(page, (trips) => trips[0].answer.totals.mass_limit_g === 8000);
    holds(two.answer.totals.mass_g <= 8000, "the kit keeps to the limit");
    // A worker that is ended goes when the browser has time for it.
    for (let tries = 0; page.workers().length > 2 && tries < 50; tries += 1) await page.waitForTimeout(200);
    holds(page.workers().length <= 2, `${page.workers().length} workers are left`);
  }, { before });
}
