// What comes in by files and links: tracks chosen and dropped, a link that is pasted.
import { link } from "./edge.mjs";
import { settledStore } from "./ride.mjs";
import { audited, fits, go, same, sample, tappable } from "./stage.mjs";

/** Adds checks of what comes in by files and links that are pasted. */
export async function brought(stage) {
  await stage.check("legs come out of a track", async (page) => {
    await sample(page);
    await go(page, "trip");
    const points = [[46, 7], [46.3, 7.2], [46.6, 7.6], [46.2, 7.9], [46, 7]].map(([lat, lon]) => `<trkpt lat="${lat}" lon="${lon}"/>`).join("");
    const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.getByText("Legs from a track").tap()]);
    await chooser.setFiles({ name: "loop.gpx", mimeType: "application/gpx+xml", buffer: Buffer.from(`<?xml version="1.0"?><gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${points}</trkseg></trk></gpx>`) });
    await page.getByText("Legs taken from the track").waitFor();
    await settledStore(page, (trips) => trips[0].scenario.trip.legs[0].name === "Day 1");
    const seen = () => page.waitForFunction(() => document.querySelector(".way-picture img")?.naturalWidth > 0);
    await seen();
    await page.locator(".way-picture").scrollIntoViewIfNeeded();
    if (process.env.FARDEL_SHOTS) await page.screenshot({ path: `${process.env.FARDEL_SHOTS}/way.png` });
    await audited(page, "a track");
    await tappable(page, "a track");
    await page.getByText("Show it large").tap();
    await fits(page, "a track, large");
    await audited(page, "a track, large");
    // It is kept with the trip, and can be taken away.
    await settledStore(page, (trips) => trips[0].way?.name === "loop.gpx");
    await page.reload();
    await seen();
    await page.getByText("Take the picture away").tap();
    await page.locator(".way-picture").waitFor({ state: "detached" });
    await page.locator(".said button").tap();
    await seen();
  });

  await stage.check("a track is dropped on the trip; what is no track is refused", async (page) => {
    await sample(page);
    await go(page, "trip");
    const drop = (name, text) => page.evaluate(([name, text]) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([text], name));
      document.querySelector("main").dispatchEvent(new DragEvent("drop", { bubbles: true, cancelable: true, dataTransfer }));
    }, [name, text]);
    await drop("bad.gpx", "<gpx><trk><trkseg>");
    await page.getByText("The track was not taken").waitFor();
    same(await page.locator(".way-picture").count(), 0, "pictures of a bad track");
    const points = [[46, 7], [46.3, 7.2], [46.6, 7.6]].map(([lat, lon]) => `<trkpt lat="${lat}" lon="${lon}"/>`).join("");
    await drop("<img src=x>.gpx", `<gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1"><trk><name>&lt;script&gt;</name><trkseg>${points}</trkseg></trk></gpx>`);
    await page.waitForFunction(() => document.querySelector(".way-picture img")?.naturalWidth > 0);
    same(await page.getByText("The track was not taken").count(), 0, "words about the bad track");
  });

  await stage.check("a link is pasted where the trips are", async (page) => {
    await sample(page);
    const made = await link(page);
    await go(page, "start");
    await page.getByText("A link that you got").tap();
    await page.fill("dialog textarea", made.slice(0, -9));
    await page.getByText("Open it").tap();
    await page.locator("dialog [role=alert]").getByText("damaged").waitFor();
    await page.fill("dialog textarea", `Look at this: ${made} see you`);
    await page.getByText("Open it").tap();
    await page.waitForSelector(".at-trip");
  });

  await stage.check("another currency: amounts keep their worth, there and back", async (page) => {
    await sample(page);
    await go(page, "limits");
    const field = page.getByRole("textbox", { name: "Currency, three letters" });
    await field.fill("nzd");
    await page.keyboard.press("Tab");
    await page.getByRole("textbox", { name: "One USD in NZD" }).fill("1.7");
    await page.keyboard.press("Tab");
    await page.locator("#limit-budget-shown").getByText("102 NZD").waitFor();
    const of = (currency, budget) => ([trip]) => trip.answerState === "proven" && trip.answer.totals.currency === currency && Math.round(trip.answer.totals.budget) === budget;
    const [there] = await settledStore(page, of("NZD", 102));
    same(there.scenario.money.rates, { USD: 1.7 }, "rates");
    await field.fill("USD");
    await page.keyboard.press("Tab");
    await page.locator("#limit-budget-shown").getByText("60 USD").waitFor();
    await settledStore(page, of("USD", 60));
  });
}
