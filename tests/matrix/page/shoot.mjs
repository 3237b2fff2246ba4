// shoot.mjs HOMESERVER USER PASSWORD ROOM FOLDER: the room at a phone's width, screen after screen, as PNG files.
import { join } from "node:path";
import puppeteer from "puppeteer-core";
import { createServer } from "vite";

const [homeserver, user, password, room, folder] = process.argv.slice(2);
const here = import.meta.dirname;
const width = 390, height = 844;
const pageServer = await createServer({
  root: here,
  // The client's service worker must lie at the root.
  publicDir: join(here, "node_modules/hydrogen-view-sdk/lib-build"),
  server: { host: "127.0.0.1", port: 0 },
  logLevel: "error",
});
await pageServer.listen();
const { port } = pageServer.httpServer.address();
const browser = await puppeteer.launch({
  executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
  args: [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
  ],
});
try {
  const page = await browser.newPage();
  await page.setViewport({ width, height, deviceScaleFactor: 2 });
  const query = new URLSearchParams({ homeserver, user, password, room });
  await page.goto(`http://127.0.0.1:${port}/?${query}`);
  await page.waitForFunction("window.isShown || window.problem", { timeout: 60_000 });
  const problem = await page.evaluate("window.problem");
  if (problem) throw new Error(problem);
  const pause = (milliseconds) => new Promise((done) => setTimeout(done, milliseconds));
  // Older messages are fetched when the top comes into sight.
  for (let round = 0; round < 12; round += 1) {
    await page.evaluate("document.querySelector('.Timeline_scroller').scrollTop = 0");
    await pause(400);
  }
  const whole = await page.evaluate("document.querySelector('.Timeline_scroller').scrollHeight");
  const step = height - 60;
  let number = 0;
  for (let top = 0; top < whole - 60; top += step) {
    await page.evaluate(`document.querySelector('.Timeline_scroller').scrollTop = ${top}`);
    await pause(300);
    number += 1;
    await page.screenshot({ path: join(folder, `screen-${String(number).padStart(2, "0")}.png`) });
  }
  console.log(`${number} screens in ${folder}`);
} finally {
  await browser.close();
  await pageServer.close();
}
