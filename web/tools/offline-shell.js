// The service worker. Keeps the page's own files, nothing else: answers of the server are never kept here.
const files = __FILES__;
const shelf = 'fettle-' + __NAME__;

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(shelf)
      .then((cache) => cache.addAll(files))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener('activate', (event) => {
  const old = (name) => name.startsWith('fettle-') && name !== shelf;
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

// The server first, so that a new program brings its new page; what is kept only where the server is away.
self.addEventListener('fetch', (event) => {
  const { pathname, origin } = new URL(event.request.url);
  if (event.request.method !== 'GET' || origin !== self.location.origin || !files.includes(pathname)) return;
  event.respondWith(fetch(event.request).catch(() => caches.match(pathname).then((kept) => kept ?? Response.error())));
});
