// Keeps the page on the reader's device, so that it works without a network.
//
// Every file but the page itself has a name that changes with its content, so one copy of it is
// right for ever. A new version is fetched whole beside the old one, and the next load of the page
// is the new one, whichever worker answers; a page that is open keeps its own files, and nothing is
// loaded under its feet. So a new worker takes its turn when no page is open any more: one that
// pushes in (`skipWaiting`) while a page is being loaded can leave that page waiting for ever.

const MARK = "modewright-";
const VERSION = "{version}";
const FILES = [
{files}
];
const own = MARK + VERSION;
const home = new URL("./", self.location);
const whole = new URL("offline-whole", home).href;
const isHome = (url) => [home.pathname, `${home.pathname}index.html`].includes(url.pathname);

// Fetches what no older version has. A version that is not whole says so by having no mark.
async function install() {
  const cache = await caches.open(own);
  for (const name of FILES) {
    const address = new URL(name, home).href;
    const kept = await caches.match(address);
    if (kept) await cache.put(address, kept);
    else await cache.add(address);
  }
  await cache.add(new Request(home.href, { cache: "reload" }));
  await cache.put(whole, new Response(String(Date.now())));
}

// The whole versions, the newest first.
async function versions() {
  const found = [];
  for (const name of await caches.keys()) {
    if (!name.startsWith(MARK)) continue;
    const mark = await (await caches.open(name)).match(whole);
    if (mark) found.push([Number(await mark.text()), name]);
  }
  return found.sort((a, b) => b[0] - a[0]).map(([, name]) => name);
}

// This version and the one before stay: a page that has just been opened may want a file of that.
async function tidy() {
  const keep = (await versions()).slice(0, 2);
  for (const name of await caches.keys()) {
    if (name.startsWith(MARK) && name !== own && !keep.includes(name)) await caches.delete(name);
  }
}

async function answer(request, url) {
  if (isHome(url)) {
    for (const name of await versions()) {
      const page = await (await caches.open(name)).match(home.href);
      if (page) return page;
    }
  }
  return (await caches.match(request)) ?? fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(tidy()));
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || !url.href.startsWith(home.href)) return;
  event.respondWith(answer(request, url));
});
