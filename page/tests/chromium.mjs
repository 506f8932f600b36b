// Chromium without a window, steered over its DevTools protocol through a pipe: node's own modules are enough.
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";

const FOUND = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

/** Where Chromium is; nothing where it is not. */
export function chromium() {
  return [process.env.CHROMIUM ?? "", ...FOUND].find((file) => file && existsSync(file)) ?? null;
}

/** A browser with one page, the network off, and every request and message noted. */
export class Browser {
  static async start() {
    const browser = new Browser();
    browser.folder = mkdtempSync(path.join(tmpdir(), "parings-page-"));
    const flags = ["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--no-first-run",
      "--disable-background-networking", "--disable-component-update", "--remote-debugging-pipe", "--host-resolver-rules=MAP * ~NOTFOUND",
      `--user-data-dir=${browser.folder}/profile`];
    browser.child = spawn(chromium(), flags, { stdio: ["ignore", "ignore", "ignore", "pipe", "pipe"] });
    browser.waiting = new Map();
    browser.requests = [];
    browser.messages = [];
    browser.next = 1;
    let left = "";
    browser.child.stdio[4].setEncoding("utf8").on("data", (text) => {
      left += text;
      const all = left.split("\0");
      left = all.pop();
      for (const one of all) browser.heard(JSON.parse(one));
    });
    const { targetId } = await browser.send("Target.createTarget", { url: "about:blank" });
    const { sessionId } = await browser.send("Target.attachToTarget", { targetId, flatten: true });
    browser.session = sessionId;
    for (const what of ["Page", "Runtime", "Network", "DOM", "Log"]) await browser.page(`${what}.enable`);
    await browser.page("Network.emulateNetworkConditions", { offline: true, latency: 0, downloadThroughput: 0, uploadThroughput: 0 });
    await browser.page("Target.setAutoAttach", { autoAttach: true, waitForDebuggerOnStart: false, flatten: true });
    await browser.send("Browser.setDownloadBehavior", { behavior: "allow", downloadPath: path.join(browser.folder, "downloads") });
    return browser;
  }

  heard(message) {
    if (message.id) {
      const { resolve, reject, method } = this.waiting.get(message.id);
      this.waiting.delete(message.id);
      if (message.error) reject(new Error(`${method}: ${message.error.message}`));
      else resolve(message.result);
      return;
    }
    const { method, params } = message;
    if (method === "Network.requestWillBeSent") this.requests.push(params.request.url);
    if (method === "Runtime.exceptionThrown") this.messages.push(params.exceptionDetails.exception?.description ?? params.exceptionDetails.text);
    if (method === "Log.entryAdded") this.messages.push(params.entry.text);
    if (method === "Tracing.dataCollected") this.traced?.push(...params.value);
    if (method === "Tracing.tracingComplete") this.tracedAll?.();
    if (method === "Page.fileChooserOpened") this.chosen?.(params);
    if (method === "Target.attachedToTarget" && params.targetInfo.type === "worker") this.worker = params.sessionId;
  }

  send(method, params = {}, sessionId = undefined) {
    const id = this.next++;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject, method });
      this.child.stdio[3].write(`${JSON.stringify({ id, method, params, sessionId })}\0`);
    });
  }

  page(method, params) {
    return this.send(method, params, this.session);
  }

  /** What an expression comes to in the page, or in its worker. */
  async value(expression, session = this.session) {
    const { result, exceptionDetails } = await this.send("Runtime.evaluate", { expression, awaitPromise: true, returnByValue: true }, session);
    if (exceptionDetails) throw new Error(exceptionDetails.exception?.description ?? exceptionDetails.text);
    return result.value;
  }

  /** Waits until an expression holds. */
  async until(expression, seconds = 60) {
    const end = Date.now() + seconds * 1000;
    while (Date.now() < end) {
      if (await this.value(expression)) return;
      await new Promise((resolve) => setTimeout(resolve, 40));
    }
    throw new Error(`not within ${seconds} s: ${expression}; the page says: ${await this.value("document.getElementById('says').textContent")}`);
  }

  async goto(file) {
    await this.page("Page.navigate", { url: `file://${path.resolve(file)}` });
    await this.until("document.getElementById('says')?.textContent === 'Ready.'", 120);
  }

  /** Puts files into an input, as if they had been chosen. */
  async choose(id, files) {
    const { root } = await this.page("DOM.getDocument");
    const { nodeId } = await this.page("DOM.querySelector", { nodeId: root.nodeId, selector: `#${id}` });
    await this.page("DOM.setFileInputFiles", { nodeId, files: files.map((file) => path.resolve(file)) });
  }

  /**
   * The longest that the page's own thread works without a pause while something is done, in milliseconds of its own time: what else
   * the machine does meanwhile is not the page's.
   */
  async longest(act) {
    this.traced = [];
    await this.page("Tracing.start", { traceConfig: { includedCategories: ["toplevel", "__metadata"] }, transferMode: "ReportEvents" });
    await act();
    const all = new Promise((resolve) => { this.tracedAll = resolve; });
    await this.page("Tracing.end");
    await all;
    const main = this.traced.filter((one) => one.name === "thread_name" && one.args.name === "CrRendererMain").map((one) => `${one.pid} ${one.tid}`);
    const tasks = this.traced.filter((one) => one.tdur && main.includes(`${one.pid} ${one.tid}`));
    if (tasks.length === 0) throw new Error("nothing was traced");
    return tasks.reduce((most, one) => Math.max(most, one.tdur), 0) / 1000;
  }

  /** What a chooser of files is answered, once something has brought it up. */
  async chooser(files, act) {
    await this.page("Page.setInterceptFileChooserDialog", { enabled: true });
    const came = new Promise((resolve, reject) => {
      this.chosen = resolve;
      setTimeout(() => reject(new Error("no chooser of files came up")), 10_000).unref();
    });
    await act();
    const { backendNodeId } = await came;
    await this.page("DOM.setFileInputFiles", { backendNodeId, files: files.map((file) => path.resolve(file)) });
    await this.page("Page.setInterceptFileChooserDialog", { enabled: false });
  }

  async key(key, more = {}) {
    const keys = { Backspace: 8, Tab: 9, Enter: 13, " ": 32, End: 35, Home: 36, ArrowLeft: 37, ArrowUp: 38, ArrowRight: 39, ArrowDown: 40 };
    const text = key === "Enter" ? "\r" : key.length === 1 ? key : undefined;
    const number = keys[key] ?? key.toUpperCase().charCodeAt(0);
    const code = /^\d$/.test(key) ? `Digit${key}` : key === " " ? "Space" : key;
    for (const type of ["keyDown", "keyUp"]) {
      await this.page("Input.dispatchKeyEvent", { type, key, code, windowsVirtualKeyCode: number, text: type === "keyDown" ? text : undefined, ...more });
    }
  }

  async look({ width = 1100, height = 900, dark = false, print = false } = {}) {
    await this.page("Emulation.setDeviceMetricsOverride", { width, height, deviceScaleFactor: 1, mobile: false });
    await this.page("Emulation.setEmulatedMedia", { media: print ? "print" : "", features: [{ name: "prefers-color-scheme", value: dark ? "dark" : "light" }] });
  }

  async picture() {
    const { cssContentSize: { width, height } } = await this.page("Page.getLayoutMetrics");
    const clip = { x: 0, y: 0, width, height: Math.min(height, 6000), scale: 1 };
    const { data } = await this.page("Page.captureScreenshot", { captureBeyondViewport: true, clip });
    return Buffer.from(data, "base64");
  }

  async stop() {
    await this.send("Browser.close").catch(() => {});
    await new Promise((resolve) => { if (this.child.exitCode !== null) resolve(); else this.child.once("exit", resolve); });
    rmSync(this.folder, { recursive: true, force: true, maxRetries: 5 });
  }
}
