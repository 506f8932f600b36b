// @ts-check
// Page: everything is set up, then the engine starts while nobody waits for it.
import { setUpPictures } from "./bars.js";
import { restored } from "./book.js";
import { setUpCards } from "./card.js";
import { setUpCredit } from "./credit.js";
import { setUpDishes } from "./dishes.js";
import { warm } from "./engine.js";
import { setUpHome } from "./home.js";
import { setUpPrices } from "./prices.js";
import { setUpProblems } from "./problems.js";
import { setUpStart } from "./start.js";
import { setUpTrim } from "./trim.js";
import { setUpTrying } from "./tryit.js";
import { setUpViews } from "./views.js";
import { afterEnd, say, stoppable } from "./work.js";

const NEEDED = typeof WebAssembly === "object";

if (NEEDED) {
  for (const setUp of [setUpStart, setUpProblems, setUpDishes, setUpCards, setUpTrim, setUpTrying, setUpCredit, setUpPrices, setUpHome, setUpPictures, setUpViews]) setUp();
  stoppable();
  afterEnd(restored);
  warm().then(() => say("Ready."), (/** @type {Error} */ fault) => say(fault.message, "bad"));
} else {
  say("This browser is too old for the page: it wants one of 2023 or later.", "bad");
}
