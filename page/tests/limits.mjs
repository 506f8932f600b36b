// What must not happen: text that is run, requests, a file that fills the memory, a fault or a stop that loses the book.
import { readFileSync } from "node:fs";
import { check, equal, page, sample } from "./steps.mjs";

const PIXEL = "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAAC0lEQVR4nGNgAAIAAAUAAXpeqz8AAAAASUVORK5CYII=";
const dishes = (steps) => steps.count("#dishes-table tbody tr");

export async function limits(steps) {
  const { browser } = steps;

  await check("a file that is given twice is read once, and a bad one leaves the book", async () => {
    await steps.fresh();
    const copy = steps.written("copy of it.xlsx", readFileSync(sample));
    await browser.choose("files", [sample, copy]);
    await steps.said(/is a copy/);
    equal(await steps.text("says"), "teaching-kitchen.xlsx is open. copy of it.xlsx is a copy of teaching-kitchen.xlsx: it is read once.", "said");
    equal(await dishes(steps), 7, "dishes");
    await browser.choose("files", [steps.written("picture.png", Buffer.from(PIXEL, "base64"))]);
    await steps.said(/is a picture/);
    equal(/The book that was open still is\.$/.test(await steps.text("says")), true, await steps.text("says"));
    await steps.view("dishes");
    equal(await steps.text("says"), "", "said in another view");
  });

  await check("text of a book is text", async () => {
    await steps.open([steps.written("markup.csv", `Item,Pack,Price\n"<img src=x onerror=window.hacked=1>",50 lb,25\n
Recipe,"<script>window.hacked=1</script>"\nPortions,4\nMenu price,3\nIngredient,Qty,Unit\n"<img src=x onerror=window.hacked=1>",2,lb\n`)]);
    for (const name of ["problems", "recipes", "trim", "try", "dishes"]) {
      await steps.view(name);
      await steps.quiet();
    }
    equal(await steps.value("window.hacked ?? null"), null, "markup was run");
    equal(await steps.count("main img, main script"), 0, "elements of the book");
  });

  await check("the policy refuses fetch, beacon, image and injected script", async () => {
    const refused = await steps.value(`(async () => {
      const refused = [];
      document.addEventListener("securitypolicyviolation", (event) => refused.push(event.effectiveDirective));
      await fetch("https://example.org/").catch(() => {});
      navigator.sendBeacon("https://example.org/", "x");
      document.body.append(Object.assign(new Image(), { src: "https://example.org/x.png" }));
      document.body.append(Object.assign(document.createElement("script"), { textContent: "window.hacked = 1" }));
      await new Promise((done) => setTimeout(done, 300));
      document.querySelector("body > img").remove();
      return refused.sort();
    })()`);
    equal(await steps.value("window.hacked ?? null"), null, "an injected script ran");
    equal(refused, ["connect-src", "connect-src", "img-src", "script-src-elem"], "refused");
  });

  await check("only the file and its blobs were asked for", () => {
    const others = browser.requests.filter((url) => !url.startsWith("blob:") && !url.startsWith("data:") && url !== `file://${page}` && !url.includes("example.org"));
    equal(others, [], "requests");
  });

  await check("after a fault of the engine the page goes on", async () => {
    await steps.open([sample]);
    await steps.view("home");
    // What a fault does, whatever its cause: a question that asks for more room than there is.
    await browser.value("engine = { ...engine, memory: engine.memory, parings_room: ((room) => () => room(-1))(engine.parings_room) }", browser.worker);
    await steps.press("#home-workbook", "Costed workbook");
    await steps.said(/^The engine stopped/);
    await steps.quiet();
    const said = await steps.text("says");
    await steps.view("dishes");
    equal(await dishes(steps), 7, "dishes");
    await steps.json("teaching-kitchen");
    return said.slice(0, 100);
  });

  await check("keys: Stop stops, and the book is there as it was", async () => {
    const lines = ["Item,Pack,Price", ...Array.from({ length: 4000 }, (_, at) => `Item ${at},50 lb,${10 + (at % 40)}`), "", "Recipe,Item,Qty,Unit",
      ...Array.from({ length: 90000 }, (_, at) => `Dish ${at % 3000},Item ${at % 4000},2,lb`)];
    await steps.chooseBy("#new", [steps.written("slow.csv", lines.join("\n"))]);
    await steps.until("!document.getElementById('work').hidden");
    await steps.enter("#stop");
    await steps.said(/^Stopped/);
    await steps.quiet();
    await steps.view("dishes");
    equal(await dishes(steps), 7, "dishes");
  });

  await check("a file that is too large is refused before it grows", async () => {
    await browser.choose("files", [steps.written("huge.csv", "Item,Pack,Price\n" + "Onions,50 lb,25\n".repeat(2_800_000))]);
    await steps.said(/unpacks into more than/, 90);
    await steps.view("dishes");
    equal(await dishes(steps), 7, "dishes");
  });
}
