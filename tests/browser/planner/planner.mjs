// All checks of the planner in a browser: `node tests/browser/planner/planner.mjs PROGRAM [WORD OF A CHECK'S NAME]`.
import { brought } from "./brought.mjs";
import { edge } from "./edge.mjs";
import { language } from "./language.mjs";
import { look } from "./look.mjs";
import { ride } from "./ride.mjs";
import { Stage } from "./stage.mjs";
import { bike, workers } from "./workers.mjs";

const stage = await Stage.open(process.argv[2]);
await ride(stage);
await edge(stage);
await brought(stage);
await look(stage);
await language(stage);
await bike(stage);
await workers(stage);
await stage.close();
