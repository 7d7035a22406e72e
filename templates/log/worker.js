// Keeps the whole page in the phone, so that it opens where there is no signal. A new edition is fetched
// beside the old one and takes its place whole. Two lines above this one are written by the build.

const NAME = `${registration.scope} `;

addEventListener("install", (event) => {
  const fresh = ["./", ...FILES].map((name) => new Request(name, { cache: "reload" }));
  event.waitUntil(caches.open(NAME + EDITION).then((cache) => cache.addAll(fresh)).then(() => skipWaiting()));
});

addEventListener("activate", (event) => {
  // Other rigs of this host have caches of their own.
  const old = (name) => name.startsWith(NAME) && name !== NAME + EDITION;
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))))
      .then(() => clients.claim()),
  );
});

addEventListener("fetch", (event) => {
  if (event.request.method !== "GET") return;
  event.respondWith(
    caches.open(NAME + EDITION)
      .then((cache) => cache.match(event.request, { ignoreSearch: true }))
      .then((kept) => kept || fetch(event.request)),
  );
});
