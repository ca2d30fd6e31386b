// Keeps the whole page for use without a network. A new build has a new version and takes over as a whole.
const version = "VERSION";
const files = ["FILES"];
const shelf = `halfcount-page-${version}`;

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(shelf).then((cache) => cache.addAll(files)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  const old = (name) => name.startsWith("halfcount-page-") && name !== shelf;
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || new URL(event.request.url).origin !== self.location.origin) return;
  const kept = caches.open(shelf).then((cache) => cache.match(event.request, { ignoreSearch: true }));
  event.respondWith(kept.then((answer) => answer ?? fetch(event.request)));
});
