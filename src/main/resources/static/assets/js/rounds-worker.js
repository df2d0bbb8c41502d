// Rounds open without signal: the list, the sheets on it and what they look like are kept on this
// device. With signal the server is always asked first; what it says is what is shown and kept.
const CACHE = "towerledger.rounds";
const PATIENCE_MS = 6000;
let left = false;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

const isRound = (path) => path === "/rounds" || /^\/rounds\/[^/.]+(\/tower)?$/.test(path);
const isAsset = (path) => /^\/(assets\/|webjars\/|palette\.css$)/.test(path);

const isKeepable = (answer) => answer.ok && answer.type === "basic" && !answer.redirected;

// A page that is kept says since when, so that a sheet filled in on it gets its own time.
async function keepPage(path, answer) {
  if (!isKeepable(answer)) return;
  const text = (await answer.text()).replace("<html", `<html data-kept="${Date.now()}"`);
  if (left) return;
  const cache = await caches.open(CACHE);
  await cache.put(path, new Response(text, { headers: answer.headers }));
}

async function page(request) {
  const { pathname, search } = new URL(request.url);
  const cache = await caches.open(CACHE);
  const kept = await cache.match(pathname);
  try {
    // one page a path: a list that was searched or turned is not the list
    const asked = fetch(request).then((answer) => {
      if (search === "") keepPage(pathname, answer.clone());
      return answer;
    });
    if (!kept) return await asked;
    const late = new Promise((done) => setTimeout(() => done(kept), PATIENCE_MS));
    return await Promise.race([asked, late]);
  } catch (error) {
    const instead = kept ?? (await cache.match("/rounds"));
    if (instead) return instead;
    throw error;
  }
}

async function asset(request) {
  const cache = await caches.open(CACHE);
  const { pathname } = new URL(request.url);
  return (await cache.match(pathname)) ?? fetch(request);
}

self.addEventListener("fetch", (event) => {
  const { origin, pathname } = new URL(event.request.url);
  if (event.request.method !== "GET" || origin !== self.location.origin) return;
  if (event.request.mode === "navigate" && isRound(pathname)) {
    event.respondWith(page(event.request));
  } else if (isAsset(pathname)) {
    event.respondWith(asset(event.request));
  }
});

// A page names the sheets it leads to and all that it looks like; assets no longer named go. Once
// the reader has signed out everything goes.
self.addEventListener("message", (event) => {
  left = event.data.leave === true;
  event.waitUntil(left ? leave() : keepAll(event.data.pages, event.data.assets));
});

async function leave() {
  await caches.delete(CACHE);
  await self.registration.unregister();
}

async function keepAll(pages, assets) {
  const cache = await caches.open(CACHE);
  for (const request of await cache.keys()) {
    const { pathname } = new URL(request.url);
    if (isAsset(pathname) && !assets.includes(pathname)) await cache.delete(request);
  }
  for (const path of assets) {
    if (await cache.match(path)) continue;
    const answer = await fetch(path);
    if (isKeepable(answer)) await cache.put(path, answer);
  }
  for (const path of pages) {
    if (isRound(path)) await keepPage(path, await fetch(path));
  }
}
