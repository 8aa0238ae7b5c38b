import { Stage, go, sample, settled, SCREENS } from "./stage.mjs";
const stage = await Stage.open(process.argv[2]);
const {page}=await stage.phone({locale:"de-DE",width:320});
await sample(page,/Tammel/,/bewiesen/);
await page.evaluate(() => { document.documentElement.style.fontSize = "200%"; });
for (const s of [...SCREENS,"start"]) { await go(page,s); await page.waitForTimeout(200);
 const r=await page.evaluate(()=>[document.documentElement.scrollWidth,[...document.querySelectorAll("body *")].filter(n=>n.checkVisibility()&&n.getBoundingClientRect().right>321&&!n.closest(".unseen,svg")).map(n=>n.tagName+"."+n.className+":"+n.textContent.slice(0,30)+" "+Math.round(n.getBoundingClientRect().right)).slice(0,6)]);
 if(r[0]>320) console.log(s,r[0],r[1].join("\n   ")); }
await page.screenshot({path:"/tmp/j/shots/de-x-200.png"});
await stage.close();
